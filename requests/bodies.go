package requests

import "lintel/mesh"

// Kinds maps every kind of this package to a fresh body, for folds, tools and
// tests.
func Kinds() map[mesh.Kind]func() any {
	return map[mesh.Kind]func() any{
		KindRoleLine:     func() any { return new(RoleLine) },
		KindRoomLine:     func() any { return new(RoomLine) },
		KindSetting:      func() any { return new(Setting) },
		KindHolds:        func() any { return new(Holds) },
		KindLayout:       func() any { return new(Layout) },
		KindListLine:     func() any { return new(ListLine) },
		KindCaseOpen:     func() any { return new(CaseOpen) },
		KindCaseShut:     func() any { return new(CaseShut) },
		KindCaseMoved:    func() any { return new(CaseMoved) },
		KindRoleTaken:    func() any { return new(RoleTaken) },
		KindLineDone:     func() any { return new(LineDone) },
		KindPPECheck:     func() any { return new(PPECheck) },
		KindSkipped:      func() any { return new(Skipped) },
		KindTestAsked:    func() any { return new(TestAsked) },
		KindTestHeard:    func() any { return new(TestHeard) },
		KindCondition:    func() any { return new(Condition) },
		KindAsked:        func() any { return new(Asked) },
		KindChanged:      func() any { return new(Changed) },
		KindAcknowledged: func() any { return new(Acknowledged) },
		KindCouldNot:     func() any { return new(CouldNot) },
		KindPassedOn:     func() any { return new(PassedOn) },
		KindOffered:      func() any { return new(Offered) },
		KindInHand:       func() any { return new(InHand) },
		KindAgreed:       func() any { return new(Agreed) },
		KindRefused:      func() any { return new(Refused) },
		KindAtDoor:       func() any { return new(AtDoor) },
		KindTakenIn:      func() any { return new(TakenIn) },
		KindTakenBack:    func() any { return new(TakenBack) },
		KindWithdrawn:    func() any { return new(Withdrawn) },
		KindUndone:       func() any { return new(Undone) },
		KindJoined:       func() any { return new(Joined) },
		KindJoinedCode:   func() any { return new(JoinedCode) },
		KindReminded:     func() any { return new(Reminded) },
		KindSaid:         func() any { return new(Said) },
		KindSaidHeard:    func() any { return new(SaidHeard) },
		KindEntered:      func() any { return new(Entered) },
		KindLeft:         func() any { return new(Left) },
		KindBreach:       func() any { return new(Breach) },
		KindDoffStep:     func() any { return new(DoffStep) },
		KindDoor:         func() any { return new(Door) },
		KindTime:         func() any { return new(Time) },
		KindChartClock:   func() any { return new(ChartClock) },
		KindLateTime:     func() any { return new(LateTime) },
		KindDebrief:      func() any { return new(Debrief) },
		KindDebriefLine:  func() any { return new(DebriefLine) },
		KindDrill:        func() any { return new(Drill) },
		KindInject:       func() any { return new(Inject) },
		KindThisIsReal:   func() any { return new(ThisIsReal) },
	}
}

// ours tells whether a kind is in this package's range, known or from a newer version.
func ours(k mesh.Kind) bool { return k>>8 == 0x01 }

// named is the mark that a mark of a request answers; false for every body
// that is no such mark. An Asked answers nothing, a Joined names two requests.
func named(body any) (mesh.Ref, bool) {
	switch b := body.(type) {
	case *Changed:
		return b.Names, true
	case *Acknowledged:
		return b.Names, true
	case *CouldNot:
		return b.Names, true
	case *PassedOn:
		return b.Names, true
	case *Offered:
		return b.Names, true
	case *InHand:
		return b.Names, true
	case *Agreed:
		return b.Names, true
	case *Refused:
		return b.Names, true
	case *AtDoor:
		return b.Names, true
	case *TakenIn:
		return b.Names, true
	case *TakenBack:
		return b.Names, true
	case *Withdrawn:
		return b.Names, true
	case *Undone:
		return b.Names, true
	case *Reminded:
		return b.Names, true
	}
	return mesh.Ref{}, false
}
