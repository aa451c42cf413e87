package integration

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// fitsDamm tells whether a code's last digit fits.
func fitsDamm(code string) bool { return mesh.DammFits(code) }

// Goal: two devices that cannot reach each other work through a third: entries
// and receipts travel through it. When it is gone they are cut off: a request
// stays on the device that asked and says so, people use their voice, the runner
// records it and serves it, and after the cut, once joined, it does not ring
// again and was delivered once. Method: two devices that know only the third's
// address, which is killed and started again.
func TestAThirdDeviceCarriesEntriesAndACutIsBridgedByVoice(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "charge")
	for _, name := range []string{"lead", "runner"} {
		u.join(u.start(name), u.at["charge"])
	}
	lead, runner := u.at["lead"], u.at["runner"]
	ref := lead.do("ask 4243 x1 now").Ref
	u.await("lead", "two copies", ref, func(h heard) bool { return h.Copies == 2 && h.Delivery == "runner" })
	u.await("runner", "the request", ref, func(h heard) bool { return h.Ringing })
	lead.do("withdraw " + ref)
	u.shownAs("runner", ref, "withdrawn")
	u.bring("lead", "runner", "1032")
	lead.await("a receipt that came through the third", 0, func(h heard) bool { return h.Event == "copied" && h.Far && h.Device == runner.device })
	u.settled(u.names...)

	u.at["charge"].kill()
	cut := lead.do("ask 2019 x1 now")
	require.True(t, cut.Saved)
	require.Zero(t, cut.Copies)
	voiced := runner.do("voice 2019 x1 now tag L1").Ref
	runner.do("readback " + voiced + " 2019 x1")
	runner.do("door " + voiced)
	runner.do("take " + voiced + " glass")
	require.False(t, runner.hasRequest(cut.Ref))
	require.False(t, lead.hasRequest(voiced))

	u.keep(launch(t, "charge", nil, u.args("charge", u.at["charge"].address, lead.address, runner.address)...).isReady())
	u.await("lead", "the voiced request", voiced, func(h heard) bool { return h.Shown == "taken-in" })
	from := runner.said()
	lead.do("join-requests " + cut.Ref + " " + voiced)
	u.settled(u.names...)
	runner.do("board all")
	for _, name := range u.names {
		for _, h := range u.at[name].list("board all", "request") {
			require.False(t, h.Ringing, "%s: %s", name, h.raw)
		}
		require.Empty(t, u.at[name].list("board", "request"), "%s: it is still open", name)
	}
	runner.await("the joined requests", from, func(h heard) bool { return h.Event == "request" && h.Ref == voiced && !h.Ringing })
	u.leave()
	u.clean(u.names...)
}
