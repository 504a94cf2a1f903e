//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peak is the most memory that was resident, in bytes.
func peak(s *os.ProcessState) int64 {
	usage, ok := s.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" || runtime.GOOS == "ios" { // counts bytes; the others kilobytes
		return int64(usage.Maxrss)
	}
	return int64(usage.Maxrss) << 10
}
