package main

import "os"

// flushed puts a file on the disk; the system has no such call for folders.
func flushed(file *os.File) error {
	info, err := file.Stat()
	if err != nil || info.IsDir() {
		return err
	}
	return file.Sync()
}
