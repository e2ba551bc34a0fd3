package export

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// exchange lets two names change places in one step, or returns errNoExchange.
func exchange(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, unix.EINVAL), errors.Is(err, unix.ENOSYS), errors.Is(err, unix.EOPNOTSUPP):
		return errNoExchange
	}
	return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
}
