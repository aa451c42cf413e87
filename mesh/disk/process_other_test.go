//go:build !linux

package disk

import (
	"errors"
	"testing"
)

// limitFileLen is nil where no limit is tried.
var limitFileLen func(n uint64) error

func mountSmall(*testing.T, string, int) error { return errors.ErrUnsupported }
