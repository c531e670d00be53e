//go:build unix

package main

import (
	"errors"
	"os"
	"syscall"
)

// tryLock takes the lock of a file, which ends with the process at the latest.
// It does not wait: held tells that another process has it.
func tryLock(file *os.File) (held bool, err error) {
	err = syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) {
		return true, nil
	}
	return false, err
}
