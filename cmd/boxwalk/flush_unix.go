//go:build unix

package main

import (
	"errors"
	"os"
	"syscall"
)

// flushed puts a file or folder on the disk. File systems that cannot do that for
// folders say so by EINVAL or ENOTSUP; there nothing more can be done.
func flushed(file *os.File) error {
	err := file.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		return nil
	}
	return err
}
