package index

import (
	"os"

	"golang.org/x/sys/windows"
)

func lockFile(f *os.File, alone bool) error {
	how := uint32(windows.LOCKFILE_FAIL_IMMEDIATELY)
	if alone {
		how |= windows.LOCKFILE_EXCLUSIVE_LOCK
	}
	// The range lies behind the process number, which stays readable.
	err := windows.LockFileEx(windows.Handle(f.Fd()), how, 0, 1, 0, &windows.Overlapped{Offset: 1 << 20})
	if err == windows.ERROR_LOCK_VIOLATION {
		return errBusy
	}
	return err
}
