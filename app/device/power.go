package device

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"lintel/app/station"
)

// Power is what a system tells of its battery.
type Power struct {
	Percent  int
	Charging bool // it is fed from outside
	Known    bool // false: this system does not tell, or it has no battery
}

// BatteryUnknown stands for a battery of which nothing is known.
const BatteryUnknown = -1

// Battery reads the battery of the machine. It is known on Linux.
func Battery() (percent int, charging, known bool) {
	p := readPower(powerFolder)
	return p.Percent, p.Charging, p.Known
}

// Condition reads how this device is: battery, charger, and the space that is
// left where its log lies. What is not known is BatteryUnknown, or 0 of space.
func (d *Device) Condition() station.Condition {
	c := station.Condition{Battery: BatteryUnknown, DiskMB: freeMB(d.opt.Dir)}
	if percent, charging, known := Battery(); known {
		c.Battery, c.Charging = int32(percent), charging
	}
	return c
}

// readPower reads a folder as Linux shows its supplies of power: of several
// batteries of the machine the emptiest counts. Batteries of mice and pens
// have the scope "Device" and are left out.
func readPower(dir string) (p Power) {
	if dir == "" {
		return p
	}
	supplies, err := os.ReadDir(dir)
	if err != nil {
		return p
	}
	for _, s := range supplies {
		said := func(name string) string {
			b, err := os.ReadFile(filepath.Join(dir, s.Name(), name))
			if err != nil {
				return ""
			}
			return strings.TrimSpace(string(b))
		}
		if said("scope") == "Device" {
			continue
		}
		switch said("type") {
		case "Battery":
			n, err := strconv.Atoi(said("capacity"))
			if err != nil || n < 0 || n > 100 {
				continue
			}
			if !p.Known || n < p.Percent {
				p.Percent = n
			}
			status := said("status")
			p.Known, p.Charging = true, p.Charging || status == "Charging" || status == "Full"
		case "Mains", "USB":
			p.Charging = p.Charging || said("online") == "1"
		}
	}
	return p
}
