package main

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestAMonitorAcrossMidnightIsOnItsOwnDay reads clocks that stand on both sides of
// midnight: the monitor's day is the one that brings both nearest.
func TestAMonitorAcrossMidnightIsOnItsOwnDay(t *testing.T) {
	late := time.Date(2026, 2, 28, 23, 59, 50, 0, time.UTC)
	require.Equal(t, time.Date(2026, 3, 1, 0, 1, 0, 0, time.UTC), monitorAt(late, 0, 1))
	require.Equal(t, time.Date(2026, 2, 28, 23, 58, 0, 0, time.UTC), monitorAt(late.Add(time.Minute), 23, 58))
	require.Equal(t, time.Date(2026, 2, 28, 14, 5, 0, 0, time.UTC), monitorAt(late, 14, 5))
}
