package device

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTheBatteryIsReadAsLinuxShowsIt writes folders as the kernel would and
// reads them: one battery, several, a mouse's, a charger, none, and rubbish.
func TestTheBatteryIsReadAsLinuxShowsIt(t *testing.T) {
	type supply map[string]string
	for name, c := range map[string]struct {
		supplies map[string]supply
		want     Power
	}{
		"one":     {map[string]supply{"BAT0": {"type": "Battery", "capacity": "83", "status": "Discharging"}}, Power{Percent: 83, Known: true}},
		"full":    {map[string]supply{"BAT0": {"type": "Battery", "capacity": "100", "status": "Full"}}, Power{Percent: 100, Charging: true, Known: true}},
		"two":     {map[string]supply{"BAT0": {"type": "Battery", "capacity": "83"}, "BAT1": {"type": "Battery", "capacity": "7", "status": "Charging"}}, Power{Percent: 7, Charging: true, Known: true}},
		"charger": {map[string]supply{"AC": {"type": "Mains", "online": "1"}, "BAT0": {"type": "Battery", "capacity": "50", "status": "Not charging"}}, Power{Percent: 50, Charging: true, Known: true}},
		"mouse":   {map[string]supply{"hid": {"type": "Battery", "scope": "Device", "capacity": "3"}}, Power{}},
		"none":    {nil, Power{}},
		"rubbish": {map[string]supply{"BAT0": {"type": "Battery", "capacity": "much"}, "BAT1": {"type": "Battery", "capacity": "101"}}, Power{}},
	} {
		dir := t.TempDir()
		for s, files := range c.supplies {
			require.NoError(t, os.MkdirAll(filepath.Join(dir, s), 0o700))
			for f, text := range files {
				require.NoError(t, os.WriteFile(filepath.Join(dir, s, f), []byte(text+"\n"), 0o600))
			}
		}
		require.Equal(t, c.want, readPower(dir), name)
	}
	require.Zero(t, readPower(filepath.Join(t.TempDir(), "missing")))
	require.Zero(t, readPower(""))
}

// TestFreeSpaceIsKnownOnLinux asks for the space under a folder that is there
// and under one that is not.
func TestFreeSpaceIsKnownOnLinux(t *testing.T) {
	free := freeMB(t.TempDir())
	require.Equal(t, runtime.GOOS == "linux", free > 0, "%d MB", free)
	require.Zero(t, freeMB(filepath.Join(t.TempDir(), "missing")))
}
