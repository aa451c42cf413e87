package main

import (
	"slices"
	"strings"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/mesh/lan"
)

// foundWay is one way in which a device was found.
type foundWay struct {
	bit lan.Ways
	id  words.ID
}

// foundWays lists the ways in the order in which they are said.
func foundWays() []foundWay {
	return []foundWay{
		{lan.ByTyping, "typed"}, {lan.ByMemory, "remembered"}, {lan.ByBeacon, "beacon"}, {lan.ByMDNS, "mdns"}, {lan.ByTelling, wayTold},
	}
}

// The ways that are said otherwise than by one word.
const (
	wayTold   = "told"   // with the name of who told
	wayItself = "itself" // it has a link and was found in no way: it found this device
)

// foundBy fills in how a device was found.
func (e *peerEvent) foundBy(found []lan.Candidate, linked bool, names map[mesh.Key]string) {
	var ways lan.Ways
	for _, c := range found {
		ways |= c.Ways
		if name := names[c.Teller]; c.Ways&lan.ByTelling != 0 && name != "" && !slices.Contains(e.ToldBy, name) {
			e.ToldBy = append(e.ToldBy, name)
		}
	}
	for _, w := range foundWays() {
		if ways&w.bit != 0 {
			e.Found = append(e.Found, w.id)
		}
	}
	if len(e.Found) == 0 && linked {
		e.Found = []words.ID{wayItself}
	}
}

// sayFound is that in words.
func (e peerEvent) sayFound(w words.Words) string {
	said := make([]string, 0, len(e.Found))
	for _, id := range e.Found {
		if id == wayTold && len(e.ToldBy) > 0 {
			said = append(said, w.Say("found.told-by", strings.Join(e.ToldBy, w.Say("device.and"))))
			continue
		}
		said = append(said, w.Say("found."+id))
	}
	return strings.Join(said, w.Say("device.and"))
}
