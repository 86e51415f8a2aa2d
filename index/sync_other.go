//go:build !linux

package index

import (
	"errors"
	"os"
	"path/filepath"
)

// syncAll brings the files of the folders named to the disk, one by one.
func syncAll(_ string, folders []string) error {
	for _, folder := range folders {
		files, err := os.ReadDir(folder)
		if err != nil {
			return err
		}
		for _, e := range files {
			if e.IsDir() {
				continue
			}
			f, err := os.OpenFile(filepath.Join(folder, e.Name()), os.O_RDWR, 0)
			if err != nil {
				return err
			}
			err = f.Sync()
			f.Close()
			if err != nil {
				return err
			}
		}
		syncDir(folder)
	}
	return nil
}

// exchange swaps two folders in one step, where the system can.
func exchange(_, _ string) error { return errors.ErrUnsupported }
