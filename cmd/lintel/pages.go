package main

import (
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// page is what a window shows over its bar.
type page int32

const (
	pageFirst    page = iota // the one that whoever has the device begins with
	pageBoard                // inside: what is asked for
	pageRequests             // outside: what is fetched
	pageBrief                // before the door closes
	pageDoor                 // at the door
	pageTimes                // what is noted
	pageDebrief              // afterwards
	pageStock                // kits, counts, controlled drugs, restock
	pageDevice               // the device itself: joining, others, who has it
	pageChoice               // the ways to all of them
	pageMeasure              // measuring the screen
	pageKeys                 // binding keys to places of the board
)

// pageNames are the pages as they are steered to; their words are under
// "window.page".
func pageNames() map[string]page {
	return map[string]page{
		"first": pageFirst, "board": pageBoard, "requests": pageRequests, "brief": pageBrief, "door": pageDoor,
		"times": pageTimes, "debrief": pageDebrief, "stock": pageStock, "device": pageDevice, "pages": pageChoice, "measure": pageMeasure, "keys": pageKeys,
	}
}

// word is what stands on the way to a page.
func (p page) word() words.ID {
	for name, x := range pageNames() {
		if x == p {
			return "window.page." + words.ID(name)
		}
	}
	return ""
}

// outsideWays are the pages that people outside go to, in the order of a case.
func outsideWays() []page {
	return []page{pageRequests, pageBrief, pageDoor, pageTimes, pageDebrief, pageStock, pageDevice}
}

// insideWays are those for gloved hands: whatever else is done inside stands
// behind the board itself.
func insideWays() []page { return []page{pageBoard, pageBrief, pageTimes, pageDevice} }

// firstPage is what a person with these abilities begins with.
func firstPage(side requests.Side, can requests.Abilities) page {
	switch {
	case side == 0:
		return pageDevice
	case side == requests.Inside:
		return pageBoard
	case can&requests.CanFetch != 0:
		return pageRequests
	case can&requests.CanObserve != 0:
		return pageDoor
	case can&requests.CanScribe != 0:
		return pageTimes
	case can&requests.CanCharge != 0:
		return pageStock
	case can&requests.CanLead != 0:
		return pageBrief
	}
	return pageRequests
}

// shown is the page that a window shows which was left at one: a device without
// a unit, or that nobody has, shows its own page first.
func (s sight) shown(at page) page {
	switch {
	case (!s.Unit || s.Side == 0) && at != pageMeasure:
		return pageDevice
	case at == pageFirst:
		return firstPage(s.Side, s.Can)
	}
	return at
}

// home is the page that one tap leads back to: that of the work.
func (s sight) home() page { return firstPage(s.Side, s.Can) }

// boardOf is where the brief leads for a room: to the board on a device of that
// room that is inside, else to the list of requests.
func (s sight) boardOf(room mesh.ID) page {
	if s.Side == requests.Inside && len(s.Rooms) > 0 && s.Rooms[0] == room {
		return pageBoard
	}
	return pageRequests
}
