package words

import (
	"lintel/mesh"
	"lintel/requests"
)

// HowID is the id of how a runner read back; its sentence stands under "how.".
func HowID(h requests.HowRead) ID {
	switch h {
	case requests.Chosen:
		return "chosen"
	case requests.Scanned:
		return "scanned"
	case requests.Spoken:
		return "spoken"
	}
	return "how"
}

// WayID is the id of how the person who recorded something knew it; its
// sentence stands under "way.".
func WayID(w mesh.Way) ID {
	switch w {
	case mesh.WayGlass:
		return "glass"
	case mesh.WayVoice:
		return "voice"
	case mesh.WayPaper:
		return "paper"
	}
	return "self"
}

// ActID is the id of what stands on a button; its sentence stands under "act.".
func ActID(a requests.Act) ID {
	ids := [...]ID{
		requests.ActChange: "change", requests.ActAcknowledge: "acknowledge", requests.ActCouldNot: "could-not",
		requests.ActPassOn: "pass-on", requests.ActOffer: "offer", requests.ActReadBack: "read-back",
		requests.ActAgree: "agree", requests.ActRefuse: "refuse", requests.ActPutAtDoor: "put-at-door",
		requests.ActTakeIn: "take-in", requests.ActTakeInSeen: "take-in-glass", requests.ActTakeBack: "take-back",
		requests.ActWithdraw: "withdraw", requests.ActJoin: "join",
	}
	if int(a) >= len(ids) || ids[a] == "" {
		return "act"
	}
	return ids[a]
}
