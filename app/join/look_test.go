package join

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: a snapshot has the unit's roles and says who has this device. Method: a
// view in which only this device said so.
func TestLookCopiesRolesAndHolder(t *testing.T) {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	v := station.Read(mesh.GroupID{}, nil, nil, starter).View
	holds := requests.Holds{Role: "runner", Tag: "R2", Rooms: []mesh.ID{"A1"}}
	parts, err := station.Compose(v, mesh.Key{}, mesh.Tap{1}, mesh.By{}, station.Hold{Holds: holds})
	require.NoError(t, err)
	for i, p := range parts {
		v.Board.Add(mesh.Fact{Ref: mesh.MakeRef(mesh.Key{}, mesh.Tap{1}, i), Kind: p.Kind, Body: p.Body})
	}
	s := Look(v)
	require.True(t, s.Held)
	require.Equal(t, holds, s.Holds)
	require.Len(t, s.Roles, 6)
	require.Equal(t, Role{"lead", "Airway lead"}, s.Roles[0])
	require.Empty(t, s.Unit)
}

// Goal: what is not known of a device is said not to be known, and nothing is
// said of the clock of one that is not connected. Method: a table of links.
func TestDevicesSayWhatIsKnown(t *testing.T) {
	w := words.English()
	base := Device{Name: "phone", Battery: BatteryUnknown}
	for _, c := range []struct {
		name  string
		alter func(*Device)
		hint  string
		icon  look.Icon
	}{
		{"this one", func(d *Device) { d.Self = true }, "this device · battery not known", look.IconSaved},
		{"gone", func(d *Device) { d.WithinMS = 5 }, "not connected", look.IconLinkLost},
		{"doubtful", func(d *Device) { d.Health = mesh.Doubtful }, "link doubtful · clock not measured · battery not known", look.IconLinkDoubtful},
		{"TCP", func(d *Device) { d.Health, d.Via, d.Battery = mesh.Connected, mesh.OverTCP, 80 }, "connected, TCP · clock not measured · battery 80 %", look.IconLinkUp},
		{"measured", func(d *Device) {
			d.Health, d.Via, d.RoundTrip, d.OffsetMS, d.WithinMS = mesh.Connected, mesh.OverQUIC, 300*time.Microsecond, 1500, 20
		}, "connected, QUIC · 1 ms · clock +1.50 s ± 0.02 s · battery not known", look.IconLinkUp},
	} {
		d := base
		c.alter(&d)
		face := deviceFace(w, d)
		require.Equal(t, c.hint, face.Hint, c.name)
		require.Equal(t, c.icon, face.Icon, c.name)
	}
	held := base
	held.Held, held.Holds, held.RoleName = true, requests.Holds{Tag: "R2", Rooms: []mesh.ID{"A1", "A2"}}, "Runner"
	require.Equal(t, "phone · R2 Runner · A1, A2", deviceFace(w, held).Sentence)
}

// Goal: codes are read as they are shown, missing digits as dashes. Method: a table.
func TestCodesAreShownThreeThreeOne(t *testing.T) {
	for digits, want := range map[string]string{
		"": "–––\u00a0–––\u00a0–", "12": "12–\u00a0–––\u00a0–", "123456": "123\u00a0456\u00a0–", "1234566": "123\u00a0456\u00a06",
	} {
		require.Equal(t, want, threeThreeOne(digits))
	}
}
