package charge

import (
	"strings"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/kits"
)

// gapsShown is how many gaps of a room stand on its line.
const gapsShown = 2

// readyPage says of each room whether another patient could be taken now. A
// room leads to what it lacks; without gaps it leads nowhere.
func readyPage(w words.Words, s Snapshot) View {
	if s.For.Room != "" {
		return gapsPage(w, s)
	}
	v := View{Head: look.BannerFace{Icon: look.IconList, Sentence: w.Say("charge.ready.ask")}, Empty: w.Say("charge.ready.no-room")}
	for _, r := range s.Rooms {
		var short []string
		for _, g := range r.Gaps[:min(len(r.Gaps), gapsShown)] {
			short = append(short, gapWord(w, g))
		}
		if n := more(w, len(r.Gaps)-gapsShown); n != "" {
			short = append(short, n)
		}
		f := look.RowFace{Icon: look.IconDoor, Word: r.Name, Detail: strings.Join(short, " · "), State: w.Say("charge.ready.yes")}
		p := pick{}
		if len(r.Gaps) > 0 {
			f.State, f.Tone = w.Count("charge.ready.gaps", len(r.Gaps)), look.ToneNext
			p = pick{what: picksPage, at: Wanted{Page: PageReady, Room: r.ID}}
		} else {
			f.Detail = w.Say("charge.ready.nothing")
		}
		v.line(f, p)
	}
	for _, b := range []struct {
		word words.ID
		page Page
	}{
		{"charge.to.kits", PageKits}, {"charge.to.count", PageCounts}, {"charge.to.controlled", PageControlled},
		{"charge.to.restock", PageRestock}, {"charge.to.waste", PageWaste}, {"charge.to.catalogue", PageCatalogue},
	} {
		v.button(w.Say(b.word), toPage(b.page))
	}
	return v
}

// gapsPage lists what one room lacks; each line leads to where it is mended.
func gapsPage(w words.Words, s Snapshot) View {
	v := View{Empty: w.Say("charge.ready.nothing")}
	for _, r := range s.Rooms {
		if r.ID != s.For.Room {
			continue
		}
		v.Head = look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("charge.ready.of", r.Name)}
		for _, g := range r.Gaps {
			v.line(look.RowFace{Word: gapWord(w, g), Detail: gapHint(w, g), Tone: look.ToneNext}, gapWay(g))
		}
	}
	return v
}

// gapWord says one gap in few words.
func gapWord(w words.Words, g kits.Gap) string {
	id := words.ID("charge.gap." + string(g.ID))
	switch g.ID {
	case kits.GapRescue:
		return w.Say(id, strings.ToUpper(string(g.Of)[:min(1, len(g.Of))])+string(g.Of)[min(1, len(g.Of)):], g.N)
	case kits.GapKitUnsealed, kits.GapKitExpired, kits.GapKitMissing, kits.GapKitHeldBack:
		return w.Say(id, g.Of)
	case kits.GapUncounted, kits.GapAir, kits.GapKits, kits.GapInside, kits.GapOutside:
		return w.Count(id, int(g.N))
	}
	return w.Say(id)
}

// gapHint says what mends it.
func gapHint(w words.Words, g kits.Gap) string {
	if gapWay(g).what == picksNothing {
		return w.Say("charge.gap.elsewhere." + words.ID(g.ID))
	}
	return w.Say("charge.gap.tap")
}

// gapWay leads to the page that mends a gap; nowhere where that is no page of
// this screen.
func gapWay(g kits.Gap) pick {
	switch g.ID {
	case kits.GapUncounted:
		return pick{what: picksPage, at: Wanted{Page: PageCount, Room: g.Room}}
	case kits.GapKits:
		return toPage(PageKits)
	case kits.GapKitUnsealed, kits.GapKitExpired, kits.GapKitMissing, kits.GapKitHeldBack:
		return pick{what: picksPage, at: Wanted{Page: PageKit, ID: g.Of}}
	case kits.GapRescue:
		return toPage(PageRestock)
	}
	return pick{}
}
