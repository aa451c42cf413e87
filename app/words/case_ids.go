package words

import "lintel/requests"

// CallID is the id of what waits for a person outside; its sentence stands
// under "call-why.".
func CallID(w requests.CallWhy) ID {
	ids := [...]ID{
		requests.CallBreach: "breach", requests.CallNew: "new", requests.CallContended: "contended",
		requests.CallTakeBack: "take-back", requests.CallPutBack: "put-back", requests.CallStop: "stop",
		requests.CallReminded: "reminded", requests.CallStill: "still", requests.CallPassed: "passed",
		requests.CallSaid: "said", requests.CallTest: "test",
	}
	if int(w) >= len(ids) || ids[w] == "" {
		return "other"
	}
	return ids[w]
}

// DoingID is the id of what a runner does; its sentence stands under "doing."
// and has the door in its blank.
func DoingID(d requests.Doing) ID {
	switch d {
	case requests.Here:
		return "here"
	case requests.AtADoor:
		return "at-door"
	case requests.Fetching:
		return "fetching"
	case requests.Away:
		return "away"
	}
	return "none"
}
