package brief

import (
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
)

// step is the page that is shown.
type step int

const (
	stepRooms step = iota
	stepKind       // what kind of case it is
	stepCase       // what of the brief is done
	stepRoles
	stepTag  // who has a role, or checks equipment
	stepKeys // a tag is typed
	stepPlans
	stepLines  // those that are said together
	stepSets   // where the rescue sets lie
	stepSingly // the lines that are said one by one
	stepKits
	stepKit // the lines of an open tray
	stepPPE
	stepSkipped
	stepComms  // the devices inside
	stepDevice // one of them
	stepDoor   // which number stands on the door
	stepEnd    // it is shut, or goes on elsewhere
	stepUnit   // what a unit decides in quiet times
	stepDrill
	stepInject
	stepLayout
	stepSettings
	stepSetting
	stepCalls // who is called with a rescue set
)

// flow is the order in which the brief leads from page to page.
func flow() []step {
	return []step{stepRoles, stepPlans, stepLines, stepSets, stepSingly, stepKits, stepPPE, stepCase}
}

// parent is where a page leads back to.
func parent(s step) step {
	switch s {
	case stepRoles, stepPlans, stepLines, stepSets, stepSingly, stepKits, stepPPE, stepSkipped, stepComms, stepEnd:
		return stepCase
	case stepKit:
		return stepKits
	case stepDevice, stepDoor:
		return stepComms
	case stepDrill, stepLayout, stepSettings:
		return stepUnit
	case stepInject:
		return stepDrill
	case stepSetting, stepCalls:
		return stepSettings
	}
	return stepRooms
}

// hand is what the person at this device is doing. The UI goroutine owns it.
type hand struct {
	step    step
	room    mesh.ID
	role    mesh.ID  // whose tag is asked for; empty: a checker's
	checker mesh.Tag // who checks the equipment of the others
	bad     bool     // the next check was not good
	kit     mesh.ID
	device  mesh.Key
	limit   mesh.ID
	value   int64
	typed   string
	from    int        // the first row shown
	lead    bool       // the last tap may have been the last of its page: then the next page comes
	opened  mesh.Ref   // the case that was begun here, until it is seen
	seen    bool       // the case of the room was seen open
	undo    []mesh.Ref // what the last tap recorded
	until   mesh.Wall  // and how long it can be taken back
	fault   [2]string
}

// what a tap means.
type what int

const (
	picksNothing what = iota
	picksBack
	picksGo      // to a page
	picksRoom    // its case, or a new one
	picksHurry   // the patient cannot wait
	picksBoard   // the board of the room
	picksKind    // a case of this kind begins
	picksNext    // the next page of the brief
	picksRole    // somebody takes a role
	picksOther   // with another tag
	picksTag     // the tag that was asked for
	picksKey     // a letter or digit of a tag
	picksErase   // the last of them
	picksTyped   // the tag is typed
	picksTick    // a line is done, or not after all
	picksAll     // all lines of the page are done
	picksWhole   // a kit is sealed, in date, unbroken
	picksKit     // it is open: line by line
	picksWearer  // the equipment was checked
	picksBad     // the next check was not good
	picksLeave   // go on without what is not done
	picksDevice  // a device's test
	picksTest    // send a test request with the door's number
	picksHeard   // it was heard, with its sound
	picksNoSound // it arrived, and nobody heard it
	picksShut    // the case is over
	picksMove    // it goes on elsewhere
	picksDrill   // a drill begins in a room
	picksInject  // an event of it is given
	picksSecond  // a second case begins as a drill
	picksReal    // it is over: this is real
	picksAccept  // the layout is accepted
	picksLimit   // a limit is opened
	picksKeep    // and set
	picksTurn    // a yes is a no, or the next of its values
	picksCall    // somebody is called with a rescue set, or not any more
	picksUndo
)

// pick is one choice, as data.
type pick struct {
	what what
	to   step
	room mesh.ID
	id   mesh.ID
	list mesh.ID
	tag  mesh.Tag
	key  mesh.Key
	text string
	done bool
}

// Row is one line of a page.
type Row struct {
	Face look.RowFace
	Pick pick // picksNothing: it is only read
	Side look.BannerFace
	Does pick // of Side; picksNothing: there is none
	Done bool // nothing is open about it
}

// Button is what can be done with the whole page.
type Button struct {
	Face look.BannerFace
	Pick pick
	Off  bool
}

// Page is what is shown.
type Page struct {
	Head    look.BannerFace
	Tell    look.BannerFace // what has to be known; empty: nothing
	Rows    []Row
	Tiles   []Button // short words to choose from, in place of rows
	Word    string   // what was typed
	Typing  bool     // Tiles are keys
	Entry   bool     // a text is typed
	Hint    string   // in the empty entry
	Stepper *look.StepperFace
	Buttons []Button
}

func (p *Page) button(word string, k pick) {
	p.Buttons = append(p.Buttons, Button{Face: look.BannerFace{Sentence: word}, Pick: k})
}

func (p *Page) tile(word string, k pick) {
	p.Tiles = append(p.Tiles, Button{Face: look.BannerFace{Sentence: word}, Pick: k})
}

// page decides what is shown. layout is the board's layout that can be accepted.
func page(w words.Words, s Snapshot, h hand, o offered) Page {
	r, _ := s.room(h.room)
	var p Page
	switch h.step {
	case stepKind:
		p = kindPage(w, s, r)
	case stepCase:
		p = casePage(w, s, r)
	case stepRoles:
		p = rolesPage(w, s, r)
	case stepTag:
		p = tagPage(w, s, h, r)
	case stepKeys:
		p = keysPage(w, h)
	case stepPlans, stepLines, stepSets, stepSingly:
		p = linesPage(w, s, h, r)
	case stepKits:
		p = kitsPage(w, s, r)
	case stepKit:
		p = kitPage(w, s, h, r)
	case stepPPE:
		p = ppePage(w, s, h, r)
	case stepSkipped:
		p = skippedPage(w, s, r)
	case stepComms:
		p = commsPage(w, s, r)
	case stepDevice:
		p = devicePage(w, s, h, r)
	case stepDoor:
		p = doorPage(w, s)
	case stepEnd:
		p = endPage(w, s, r)
	case stepUnit:
		p = unitPage(w, s)
	case stepDrill, stepInject:
		p = drillPage(w, s, h, r)
	case stepLayout:
		p = layoutPage(w, s, o)
	case stepSettings:
		p = settingsPage(w, s)
	case stepSetting:
		p = settingPage(w, h)
	case stepCalls:
		p = callsPage(w, s)
	default:
		p = roomsPage(w, s)
	}
	if h.step != stepRooms && !p.Typing {
		p.Buttons = append([]Button{{Face: look.BannerFace{Sentence: w.Say("inside.back")}, Pick: pick{what: picksBack}}}, p.Buttons...)
	}
	if r.Drill.On && h.room != "" && p.Head.Tone == look.TonePlain {
		p.Head.Tone = look.ToneDrill
		p.Head.Hint = strings.TrimSpace(w.Say("brief.drill") + " " + p.Head.Hint)
	}
	return p
}

// row adds a line; one that is done has a bar at its edge and how it stands.
func (p *Page) row(face look.RowFace, k pick, done bool) *Row {
	if done && face.Tone == look.TonePlain {
		face.Tone = look.ToneBefore
	}
	p.Rows = append(p.Rows, Row{Face: face, Pick: k, Done: done})
	return &p.Rows[len(p.Rows)-1]
}

// age is how long ago something was.
func age(w words.Words, s Snapshot, since mesh.Wall, least bool) string {
	return w.Ago(look.ClockText(ago(s, since)), least)
}

func ago(s Snapshot, since mesh.Wall) time.Duration {
	return time.Duration(s.Now-since) * time.Millisecond
}

// joined puts what is said of one thing into one line.
func joined(parts ...string) string {
	var said []string
	for _, p := range parts {
		if p != "" {
			said = append(said, p)
		}
	}
	return strings.Join(said, " · ")
}
