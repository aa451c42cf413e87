package main

import (
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/charge"
	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
)

// Files of lists in the pictures: what is wrong with one, what another changes.
const (
	cannedWrong = "lists-wrong.xlsx"
	cannedGood  = "lists.xlsx"
)

// deskAlbum collects pictures of kits and stock.
type deskAlbum struct{ album }

// at adds a page that depends on what was recorded; taps come first.
func (a *deskAlbum) at(name string, at func(*canned) charge.Wanted, taps ...string) {
	a.draw = func(g gallery, l *look.Look, _ string) (fyne.CanvasObject, error) { return g.charge(l, at, "") }
	a.add(name, "", taps...)
}

func (a *deskAlbum) page(name string, at charge.Wanted, taps ...string) {
	a.at(name, func(*canned) charge.Wanted { return at }, taps...)
}

// file adds what is shown of a file of lists.
func (a *deskAlbum) file(name, file string) {
	a.draw = func(g gallery, l *look.Look, _ string) (fyne.CanvasObject, error) {
		return g.charge(l, func(*canned) charge.Wanted { return charge.Wanted{Page: charge.PageLists} }, file)
	}
	a.add(name, "")
}

// chargePictures are of kits and stock, page by page.
func chargePictures(w words.Words) []picture {
	a := deskAlbum{album{prefix: "stock", reads: look.DeskLine}}
	a.page("ready", charge.Wanted{})
	a.page("gaps", charge.Wanted{Page: charge.PageReady, Room: "A1"})
	a.page("kits", charge.Wanted{Page: charge.PageKits})
	a.page("kit", charge.Wanted{Page: charge.PageKit, ID: "tray-1"})
	a.page("kit-short", charge.Wanted{Page: charge.PageKit, ID: "tray-2"})
	a.page("prepare", charge.Wanted{Page: charge.PagePrepare, ID: "tray-3", Template: cannedTray})
	a.page("expiry", charge.Wanted{Page: charge.PageExpiry})
	a.page("counts", charge.Wanted{Page: charge.PageCounts})
	a.page("count", charge.Wanted{Page: charge.PageCount, Room: "A1"})
	a.page("controlled", charge.Wanted{Page: charge.PageControlled})
	a.at("issue", func(c *canned) charge.Wanted { return charge.Wanted{Page: charge.PageIssue, Ref: c.of} })
	a.page("restock", charge.Wanted{Page: charge.PageRestock})
	a.page("orders", charge.Wanted{Page: charge.PageOrders})
	a.page("waste", charge.Wanted{Page: charge.PageWaste, By: kits.ByReason})
	a.page("recall", charge.Wanted{Page: charge.PageRecall, Item: itemBougie, Lot: "B7"})
	a.page("catalogue", charge.Wanted{Page: charge.PageCatalogue})
	a.page("item", charge.Wanted{Page: charge.PageItem, Item: itemBougie})
	a.page("places", charge.Wanted{Page: charge.PagePlaces})
	a.page("sets", charge.Wanted{Page: charge.PageSets})
	a.page("classes", charge.Wanted{Page: charge.PageClasses})
	a.page("lists", charge.Wanted{Page: charge.PageLists})
	a.file("lists-problems", cannedWrong)
	a.file("lists-changes", cannedGood)
	a.forms(w)
	return a.all
}

// forms are pictures of what is filled in at the desk.
func (a *deskAlbum) forms(w words.Words) {
	field := func(id words.ID) string { return w.Say("charge.field." + id) }
	form := func(of charge.Form) charge.Wanted { return charge.Wanted{Page: charge.PageForm, Form: of} }
	a.page("form-item", charge.Wanted{Page: charge.PageForm, Form: charge.FormItem, Item: itemBougie})
	a.page("form-item-group", charge.Wanted{Page: charge.PageForm, Form: charge.FormItem, Item: itemBougie}, field("group"))
	a.page("form-item-new", form(charge.FormItem))
	a.page("form-place", charge.Wanted{Page: charge.PageForm, Form: charge.FormPlace, Place: cannedTrolley()})
	a.page("form-place-new", form(charge.FormPlace))
	a.page("form-bundle", charge.Wanted{Page: charge.PageForm, Form: charge.FormSet, Item: 229})
	a.page("form-template", charge.Wanted{Page: charge.PageForm, Form: charge.FormSet, Template: cannedTray})
	a.page("form-class", charge.Wanted{Page: charge.PageForm, Form: charge.FormWaste, ID: "infectious"})
	a.page("form-receive", charge.Wanted{Page: charge.PageForm, Form: charge.FormReceive, Item: itemBougie})
	a.page("form-receive-day", charge.Wanted{Page: charge.PageForm, Form: charge.FormReceive, Item: itemBougie}, field("expiry"), "2", "0", "2", "8")
	a.page("form-issue", form(charge.FormIssue))
	a.page("form-issue-item", form(charge.FormIssue), field("item"))
	a.page("form-draw-up", form(charge.FormDrawUp))
	ended := func(c *canned) charge.Wanted {
		return charge.Wanted{Page: charge.PageForm, Form: charge.FormEnd, Ref: c.of}
	}
	a.at("form-end", ended)
	a.at("form-end-what", ended, field("end"))
	a.at("form-reverse", func(c *canned) charge.Wanted {
		r, _ := c.view.Ledger.IssueRecord(c.of)
		at := charge.Wanted{Page: charge.PageForm, Form: charge.FormReverse, Ref: c.of}
		if n := len(r.Entries); n > 0 {
			at.Movement = r.Entries[n-1].Ref
		}
		return at
	}, field("why"))
	a.page("form-take", charge.Wanted{Page: charge.PageForm, Form: charge.FormTake, Place: cannedStore()})
}

// charge is the screen of kits and stock on one of its pages; a file is dropped
// on it if one is named.
func (g gallery) charge(l *look.Look, at func(*canned) charge.Wanted, file string) (fyne.CanvasObject, error) {
	c, taps, err := g.stage((*canned).chargeStory)
	if err != nil {
		return nil, err
	}
	var s *charge.Screen
	set := func() {
		x := charge.Look(c.view, s.Wants())
		x.InMemory = false
		s.Set(x)
	}
	s = charge.New(charge.Options{
		Look: l, Words: g.words, Taps: taps, Explain: g.explain, Now: c.clock, Zone: time.UTC, Typing: true, Lists: cannedLists{},
		Want: func(charge.Wanted) {
			if s != nil {
				set()
			}
		},
	})
	taps.shown = set
	set()
	s.Open(at(c))
	set()
	if file != "" {
		s.Dropped(file)
	}
	return s.Object(), nil
}

// cannedLists are files of lists that are not there.
type cannedLists struct{}

// ReadLists is part of charge.Lists.
func (cannedLists) ReadLists(path string, done func(charge.Import, error)) {
	if path == cannedWrong {
		done(charge.Import{Problems: []string{
			"catalogue, row 14, column “number”: 1108 stands in row 9 too.",
			"catalogue, row 31, column “stocked”: “boxes” is no measure; each, microgram, microlitre, unit or micromole is.",
			"pars: the column “par” is missing.",
		}}, nil)
		return
	}
	done(charge.Import{
		Notes:   []string{"places: 1 line of the unit is not in the file; it stays as it is."},
		Changes: []string{"catalogue: bougie 15 Fr, cost 640 instead of 590.", "pars: trolley airway, bougie 15 Fr, 6 instead of 4."},
		Write:   station.Catalogue{Pars: []kits.ParLine{{Place: cannedTrolley(), Item: itemBougie, Par: 6}}},
	}, nil)
}

// WriteLists is part of charge.Lists.
func (cannedLists) WriteLists(path string, done func(string, error)) { done(path, nil) }
