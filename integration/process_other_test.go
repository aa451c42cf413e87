//go:build !linux

package integration

import (
	"errors"
	"testing"
)

// mountSmall cannot be done here.
func mountSmall(*testing.T, string, int) (free func(), err error) {
	return nil, errors.New("only Linux has a file system in memory that a test can mount")
}
