package charge

import (
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"lintel/app/look"
	"lintel/kits"
)

// states are what the screen is shown in: a page, and what is tapped there.
func states(u *unit) map[string]struct {
	at   Wanted
	taps []string
} {
	type state = struct {
		at   Wanted
		taps []string
	}
	return map[string]state{
		"ready":      {},
		"gaps":       {at: Wanted{Page: PageReady, Room: "A1"}},
		"kits":       {at: Wanted{Page: PageKits}},
		"kit":        {at: Wanted{Page: PageKit, ID: "first-tray-1"}},
		"kit-open":   {at: Wanted{Page: PageKit, ID: "first-tray-1"}, taps: []string{"open it"}},
		"kit-short":  {at: Wanted{Page: PageKit, ID: "first-tray-2"}},
		"seal":       {at: Wanted{Page: PageKit, ID: "first-tray-2"}, taps: []string{"seal it", "4"}},
		"expiry":     {at: Wanted{Page: PageExpiry}},
		"prepare":    {at: Wanted{Page: PagePrepare, ID: "first-tray-3", Template: "first-tray"}},
		"second":     {at: Wanted{Page: PagePrepare, ID: "first-tray-3", Template: "first-tray"}, taps: []string{"filled like this"}},
		"counts":     {at: Wanted{Page: PageCounts}},
		"count":      {at: Wanted{Page: PageCount, Room: "A1"}},
		"question":   {at: Wanted{Page: PageCount, Room: "A1"}, taps: []string{"accept"}},
		"controlled": {at: Wanted{Page: PageControlled}},
		"issue":      {at: Wanted{Page: PageIssue, Ref: u.issue}},
		"why":        {at: Wanted{Page: PageIssue, Ref: u.issue}, taps: []string{"close it"}},
		"restock":    {at: Wanted{Page: PageRestock}},
		"orders":     {at: Wanted{Page: PageOrders}},
		"waste":      {at: Wanted{Page: PageWaste, By: kits.ByReason}},
		"box":        {at: Wanted{Page: PageWaste, By: kits.ByReason}, taps: []string{"close a container", "Infectious", "30"}},
		"apart":      {at: Wanted{Page: PageKit, ID: "first-tray-1"}, taps: []string{"take it apart"}},
		"recall":     {at: Wanted{Page: PageRecall, Item: bougie, Lot: "B7"}},
		"catalogue":  {at: Wanted{Page: PageCatalogue}},
		"item":       {at: Wanted{Page: PageItem, Item: bougie}},
		"lists":      {at: Wanted{Page: PageLists}},
		"classes":    {at: Wanted{Page: PageClasses}},
		"sets":       {at: Wanted{Page: PageSets}},
		"set":        {at: Wanted{Page: PageForm, Form: FormSet, Template: "first-tray"}},
		"places":     {at: Wanted{Page: PagePlaces}},
		"form-item":  {at: Wanted{Page: PageForm, Form: FormItem, Item: fentanyl}},
		"form-flags": {at: Wanted{Page: PageForm, Form: FormItem, Item: fentanyl}, taps: []string{"What has to be known"}},
		"form-words": {at: Wanted{Page: PageForm, Form: FormItem, Item: fentanyl}, taps: []string{"Name"}},
		"receive":    {at: Wanted{Page: PageForm, Form: FormReceive, Item: bougie}},
		"issuing":    {at: Wanted{Page: PageForm, Form: FormIssue}, taps: []string{"Item", "Fentanyl"}},
		"drawing":    {at: Wanted{Page: PageForm, Form: FormDrawUp}},
		"ending":     {at: Wanted{Page: PageForm, Form: FormEnd, Ref: u.issue}, taps: []string{"Of what", "in a syringe"}},
		"taking":     {at: Wanted{Page: PageForm, Form: FormTake, Place: mainStore}},
	}
}

// Goal: the screen keeps the design on a desk and on a phone, where the layout
// differs on a small tablet too, dark and light, and what it says can be
// reviewed as text. Method: audit each state on each, and compare desk and phone
// with their files.
func TestScreensKeepTheDesignAndReadAsBefore(t *testing.T) {
	u := busy(t)
	for _, glass := range []string{"desk", "phone", "small"} {
		for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
			if shade == look.Light && glass != "desk" {
				continue // the shade changes colours only
			}
			s := newScene(t, glass, shade, u)
			all := states(u)
			for _, name := range slices.Sorted(maps.Keys(all)) { // in this order, a count is seen before it is begun
				x := all[name]
				if glass == "small" && name != "ready" && name != "count" && name != "controlled" && name != "question" {
					continue
				}
				s.page(x.at).find(x.taps...)
				assert.Empty(t, s.Audit(), "%s, %s, %s", glass, name, shadeName)
				if shade == look.Dark && glass != "small" {
					s.Golden(glass + "-" + name)
				}
				s.Draw("charge-" + glass + "-" + name + "-" + shadeName)
			}
		}
	}
}
