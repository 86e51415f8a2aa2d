//go:build unix

package index

import (
	"os"

	"golang.org/x/sys/unix"
)

func lockFile(f *os.File, alone bool) error {
	how := unix.LOCK_SH
	if alone {
		how = unix.LOCK_EX
	}
	for {
		err := unix.Flock(int(f.Fd()), how|unix.LOCK_NB)
		switch err {
		case unix.EINTR:
			continue
		case unix.EWOULDBLOCK:
			return errBusy
		}
		return err
	}
}
