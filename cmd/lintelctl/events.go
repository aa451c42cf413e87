package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"lintel/app/words"
	"lintel/requests"
)

// event is one line of output: JSON by its fields, or a sentence.
type event interface{ say(words.Words) string }

// printer writes events. The loop that made it owns it.
type printer struct {
	out  io.Writer
	w    words.Words
	json bool
	err  error // the first failure to write; nobody reads on
}

func (p *printer) print(e event) {
	if p.err != nil {
		return
	}
	if !p.json {
		_, p.err = fmt.Fprintln(p.out, e.say(p.w))
		return
	}
	b, err := json.Marshal(e)
	if err == nil {
		_, err = p.out.Write(append(b, '\n'))
	}
	p.err = err
}

// readyEvent says that the device is at work.
type readyEvent struct {
	Event   string `json:"event"` // ready
	Address string `json:"address"`
	Device  string `json:"device"` // its id, hexadecimal
}

func (e readyEvent) say(w words.Words) string { return w.Say("device.ready", e.Address, e.Device) }

// errorEvent answers a line that could not be carried out.
type errorEvent struct {
	Event   string `json:"event"` // error
	Command string `json:"command,omitempty"`
	Error   string `json:"error"`
	Hint    string `json:"hint"`
}

func (e errorEvent) say(w words.Words) string { return w.Say("device.error", e.Error, e.Hint) }

// doneEvent answers a line that was carried out.
type doneEvent struct {
	Event   string `json:"event"` // done
	Command string `json:"command"`

	Request string `json:"request,omitempty"` // joining code
	Ref     string `json:"ref,omitempty"`     // of the request
	Mark    string `json:"mark,omitempty"`    // of what was recorded, for undo
	Saved   *bool  `json:"saved,omitempty"`   // on this device's disk
	Copies  *int   `json:"copies,omitempty"`  // on others', as known now
	Lies    string `json:"lies,omitempty"`    // where a set lies
	Outside bool   `json:"outside,omitempty"` // this device was removed: the record stays on it alone

	Unit    string `json:"unit,omitempty"`
	Code    string `json:"code,omitempty"`  // seven digits
	Until   int64  `json:"until,omitempty"` // milliseconds since 1970 UTC
	Address string `json:"address,omitempty"`
	Device  string `json:"device,omitempty"`

	May      *bool  `json:"may,omitempty"`   // stay: this device may stay behind
	Ready    *bool  `json:"ready,omitempty"` // ready: some room could take a patient
	Count    *int   `json:"count,omitempty"` // lines listed before this one
	Hash     string `json:"hash,omitempty"`
	Fold     int    `json:"fold,omitempty"`
	Entries  int    `json:"entries,omitempty"`
	Beside   string `json:"beside,omitempty"` // code of another case that is open in the room
	Apart    int    `json:"apart,omitempty"`  // an undone case: so many requests and facts were recorded for it
	Invented bool   `json:"invented,omitempty"`

	text string // for people
}

func (e doneEvent) say(words.Words) string { return e.text }

// thingOf is a thing as lines show it.
type thingOf struct {
	Item     string `json:"item"`
	Number   uint32 `json:"number"`
	Strength string `json:"strength,omitempty"`
	Count    int64  `json:"count"`
}

func (t thingOf) say(w words.Words) string { return w.Say("device.thing", t.Count, t.Item) }

// heldOf is what is in hand.
type heldOf struct {
	thingOf
	Mark    string `json:"mark"` // of the read-back, for agree and refuse
	By      string `json:"by"`
	Matches bool   `json:"matches"`
	Closed  bool   `json:"closed"`
}

// offeredOf is an alternative.
type offeredOf struct {
	thingOf
	Mark string `json:"mark"` // of the offer, for agree and refuse
}

// requestEvent is a request as it looks now.
type requestEvent struct {
	Event   string `json:"event"` // request
	Request string `json:"request"`
	Ref     string `json:"ref"`
	Room    string `json:"room"`
	thingOf
	Urgency string   `json:"urgency"`
	Out     bool     `json:"out,omitempty"`
	Origin  words.ID `json:"origin"`
	Shown   words.ID `json:"shown"`
	Loop    words.ID `json:"loop"`

	Delivery words.Delivery `json:"delivery,omitempty"` // of this device's own requests; so are the next three
	Saved    *bool          `json:"saved,omitempty"`    // on this device's disk
	Copies   int            `json:"copies"`             // on other devices' disks
	Runner   *bool          `json:"runner,omitempty"`   // on one that a runner for the room holds now

	By      string      `json:"by"` // the asker's tag, else the role
	Going   []string    `json:"going,omitempty"`
	Offers  []offeredOf `json:"offers,omitempty"` // of the newest open offer
	InHand  []heldOf    `json:"in_hand,omitempty"`
	Taken   int64       `json:"taken"`
	Joined  []string    `json:"joined,omitempty"` // codes
	Marks   int         `json:"marks"`            // recorded for it so far
	Flags   []string    `json:"flags"`
	Inject  string      `json:"inject,omitempty"` // what a drill says about it
	Ringing bool        `json:"ringing"`

	NotReached bool `json:"not_reached,omitempty"` // an own one that is on no runner's device for too long: use voice

	shown     string // for people
	delivered string
}

func (e requestEvent) say(w words.Words) string {
	var b strings.Builder
	b.WriteString(w.Say("device.request", e.Request, e.Room, e.thingOf.say(w), w.Say("urgency."+words.ID(e.Urgency)), e.shown, w.Say("device.by", e.By), e.sayHow(w)))
	add := func(s string) { b.WriteString(w.Say("device.and") + s) }
	if e.delivered != "" {
		add(e.delivered)
	}
	if e.Inject != "" {
		add(w.Say("fact.inject", e.Inject))
	}
	if e.NotReached {
		add(w.Say("device.not-reached"))
	}
	for _, h := range e.InHand {
		add(w.Say("device.in-hand", h.thingOf.say(w)))
	}
	if len(e.Offers) > 0 {
		var offers []string
		for _, o := range e.Offers {
			offers = append(offers, o.say(w))
		}
		add(w.Say("device.offer", strings.Join(offers, " / ")))
	}
	if e.Taken > 0 && e.Taken != e.Count {
		add(w.Say("device.taken", e.Taken, e.Count))
	}
	if len(e.Joined) > 0 {
		add(w.Say("device.joined-to", strings.Join(e.Joined, " ")))
	}
	for _, f := range e.Flags {
		add(w.Say("flag." + words.ID(f)))
	}
	if e.Ringing {
		b.WriteString(w.Say("device.rings"))
	}
	return b.String()
}

// sayHow says what is unusual about a request: that it comes out of the room,
// and that it was not tapped by whoever wants it.
func (e requestEvent) sayHow(w words.Words) (said string) {
	if e.Out {
		said += w.Say("device.and") + w.Say("device.out")
	}
	if e.Origin != words.OriginID(requests.Tapped) {
		said += w.Say("device.and") + w.Say("origin."+e.Origin)
	}
	return said
}

// linkEvent says how a link answers.
type linkEvent struct {
	Event     string   `json:"event"` // link
	Device    string   `json:"device"`
	Name      string   `json:"name"`
	Health    words.ID `json:"health"` // connected, doubtful, not-connected
	Via       string   `json:"via,omitempty"`
	Address   string   `json:"address,omitempty"`
	RoundTrip int64    `json:"round_trip_us,omitempty"`
}

func (e linkEvent) say(w words.Words) string { return w.Say("link."+e.Health, e.Name) }

// copiedEvent says how far another device has stored this one's entries.
type copiedEvent struct {
	Event  string `json:"event"` // copied
	Device string `json:"device"`
	Name   string `json:"name"`
	Feed   string `json:"feed"`
	Seq    uint64 `json:"seq"`
	Far    bool   `json:"far"` // told through others by a signed receipt
}

func (e copiedEvent) say(w words.Words) string {
	if e.Far {
		return w.Say("device.copied-far", e.Name, e.Seq)
	}
	return w.Say("device.copied", e.Name, e.Seq)
}

// noteEvent is something for people to know.
type noteEvent struct {
	Event   string   `json:"event"` // note
	Note    words.ID `json:"note"`
	Text    string   `json:"text"`
	Device  string   `json:"device,omitempty"`
	Address string   `json:"address,omitempty"`
}

func (e noteEvent) say(words.Words) string { return e.Text }

// memberEvent says that a device came into the unit or was taken out.
type memberEvent struct {
	Event  string `json:"event"` // joined or left
	Device string `json:"device"`
	Name   string `json:"name"`
}

func (e memberEvent) say(w words.Words) string { return w.Say("device."+words.ID(e.Event), e.Name) }
