package main

import (
	"errors"
	"os"
	"syscall"
	"unsafe"
)

// Of LockFileEx (Windows API, fileapi.h; from memory).
const (
	failImmediately = 1
	exclusive       = 2
	lockViolation   = syscall.Errno(33)
	farOff          = 1 << 30 // a byte that is not in the file, which others may then read
)

var lockFileEx = syscall.NewLazyDLL("kernel32.dll").NewProc("LockFileEx")

// tryLock takes the lock of a file, which ends with the process at the latest.
// It does not wait: held tells that another process has it.
func tryLock(file *os.File) (held bool, err error) {
	at := syscall.Overlapped{OffsetHigh: farOff}
	done, _, err := lockFileEx.Call(file.Fd(), failImmediately|exclusive, 0, 1, 0, uintptr(unsafe.Pointer(&at)))
	switch {
	case done != 0:
		return false, nil
	case errors.Is(err, lockViolation), errors.Is(err, syscall.ERROR_IO_PENDING):
		return true, nil
	}
	return false, err
}
