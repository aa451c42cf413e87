package main

import (
	"sync"

	"lintel/mesh"
)

// mailMax bounds the notices that wait for the session's loop. Of notices about
// the same thing only the newest waits; beyond the bound they are counted and
// left out.
const mailMax = 512

// mail carries notices from other goroutines into the session's loop. Nothing
// that is recorded depends on it: it is for people.
type mail struct {
	news chan struct{} // has a value when something waits

	mu      sync.Mutex // guards the rest
	waiting []any
	about   map[any]int // index in waiting
	left    int         // notices left out
}

func newMail() *mail { return &mail{news: make(chan struct{}, 1), about: map[any]int{}} }

// post leaves a notice in place of the one about the same thing. It never blocks.
func (m *mail) post(about, notice any) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if i, there := m.about[about]; there {
		m.waiting[i] = notice
		return
	}
	if len(m.waiting) >= mailMax {
		m.left++
		return
	}
	m.about[about] = len(m.waiting)
	m.waiting = append(m.waiting, notice)
	select {
	case m.news <- struct{}{}:
	default: // announced already
	}
}

// take empties the mailbox.
func (m *mail) take() (all []any, left int) {
	m.mu.Lock()
	defer m.mu.Unlock()
	all, left = m.waiting, m.left
	m.waiting, m.about, m.left = nil, map[any]int{}, 0
	return all, left
}

// aboutLink and aboutFeed name what a notice is about.
type (
	aboutLink struct{ peer mesh.Key }
	aboutFeed struct{ by, feed string }
	aboutDial struct{ address string }
	aboutNote struct {
		note mesh.Note
		peer mesh.Key
	}
	aboutInvite struct{ code string }
)

// told takes what the station tells. It is called from the station's loop.
func (m *mail) told(ef mesh.Effect) {
	switch e := ef.(type) {
	case mesh.LinkState:
		m.post(aboutLink{e.Peer.Peer}, e)
	case mesh.Copied:
		m.post(aboutFeed{e.By.Hex(), e.At.Feed.String()}, e)
	case mesh.Noted:
		m.post(aboutNote{e.Note, e.Peer}, e)
	}
}

// unreachable is a kept address that did not answer.
type unreachable struct {
	address string
	err     error
}

// failed takes what the network tells of a kept address.
func (m *mail) failed(address string, err error) {
	m.post(aboutDial{address}, unreachable{address, err})
}

// invited is how an invitation ended.
type invited struct {
	key mesh.Key
	err error
}
