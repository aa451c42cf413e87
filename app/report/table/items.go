package table

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"lintel/kits"
	"lintel/mesh"
)

// exitDaysMax bounds days of quarantine.
const exitDaysMax = 365

// itemList is the catalogue: the starter list's columns in its order, then more.
func itemList() list[kits.ItemLine] {
	type item = kits.ItemLine
	columns := []column[item]{
		{name: "number", write: func(v item) string { return numberText(v.Number) }, read: func(c *cell, v *item) { v.Number = c.spoken() }},
		{name: "name", write: func(v item) string { return string(v.Name) }, read: readName},
		{name: "group", write: func(v item) string { return string(v.Group) }, read: readGroup},
		{name: "detail", write: func(v item) string { return string(v.Detail) }, read: func(c *cell, v *item) { v.Detail = c.label() }},
		{name: "measure", write: func(v item) string { return measureText(v.Stocked) }, read: readMeasure},
		{name: "content", write: func(v item) string { return amountText(v.Content) }, read: func(c *cell, v *item) { v.Content = c.amount() }},
		{name: "volume_ul", write: func(v item) string { return wholeText(v.VolumeUL) }, read: func(c *cell, v *item) { v.VolumeUL = c.whole(kits.QuantityMax) }},
		{name: "use", write: useText, read: readUse},
		flagColumn("controlled", kits.Controlled),
		flagColumn("must_be_seen", kits.MustBeSeen),
		flagColumn("high_alert", kits.HighAlert),
		flagColumn("look_alike", kits.LookAlike),
		{name: "label_class", write: func(v item) string { return string(v.LabelClass) }, read: func(c *cell, v *item) { v.LabelClass = c.id() }},
		{name: "waste", write: func(v item) string { return string(v.Waste) }, read: func(c *cell, v *item) { v.Waste = c.id() }},
		{name: "exit", write: func(v item) string { return exitText(v.Exit) }, read: readExit},
		{name: "exit_days", write: func(v item) string { return wholeText(int64(v.ExitDays)) }, read: func(c *cell, v *item) { v.ExitDays = uint32(c.whole(exitDaysMax)) }},
		{name: "kept_at", write: func(v item) string { return placeText(v.KeptAt) }, read: func(c *cell, v *item) { v.KeptAt = c.place() }},
		{name: "kept_words", write: func(v item) string { return string(v.KeptWords) }, read: func(c *cell, v *item) { v.KeptWords = c.label() }},
		{name: "alternatives", write: func(v item) string { return numbersText(v.Alternatives) }, read: func(c *cell, v *item) { v.Alternatives = c.numbers() }},
		{name: "source", write: func(v item) string { return string(v.Source) }, read: func(c *cell, v *item) { v.Source = c.label() }},
	}
	return list[item]{name: Catalogue, columns: append(columns, moreOfItems()...), keys: 1}
}

// moreOfItems are the columns that a catalogue may leave out.
func moreOfItems() []column[kits.ItemLine] {
	type item = kits.ItemLine
	return []column[item]{
		{name: "tall_man", more: true, write: func(v item) string { return string(v.TallMan) }, read: func(c *cell, v *item) { v.TallMan = c.label() }},
		{name: columnCodes, more: true, write: func(v item) string { return joinCodes(v.Codes) }, read: func(c *cell, v *item) { v.Codes = c.codes() }},
		{name: "cost_minor", more: true, write: func(v item) string { return wholeText(v.CostMinor) }, read: func(c *cell, v *item) { v.CostMinor = c.whole(kits.QuantityMax) }},
		{name: "currency", more: true, write: func(v item) string { return string(v.Currency) }, read: readCurrency},
		{name: "mass_mg", more: true, write: func(v item) string { return wholeText(v.MassMG) }, read: func(c *cell, v *item) { v.MassMG = c.whole(kits.QuantityMax) }},
		{name: columnGone, more: true, write: func(v item) string { return yesNo(v.Gone) }, read: func(c *cell, v *item) { v.Gone = c.gone() }},
	}
}

// Columns that are spoken of by name.
const (
	columnCodes = "codes"
	columnGone  = "gone"
	columnItem  = "item"
)

func readName(c *cell, v *kits.ItemLine) {
	v.Name = c.label()
	if c.filled() && len(c.text) > 3 && c.text == strings.ToUpper(c.text) && c.text != strings.ToLower(c.text) {
		c.bad("capitals", c.text)
	}
}

// groupFlags are what a group says by itself.
func groupFlags(group mesh.ID) kits.Flags {
	switch group {
	case kits.GroupDrug:
		return kits.IsDrug
	case kits.GroupPeople:
		return kits.IsPerson
	case kits.GroupBundle:
		return kits.IsBundle
	case kits.GroupOut:
		return kits.ComesOut
	}
	return 0
}

func readGroup(c *cell, v *kits.ItemLine) {
	before := v.Group
	v.Group = c.id()
	if c.filled() && v.Group != before {
		v.Flags = v.Flags&^groupFlags(before) | groupFlags(v.Group)
	}
}

func readMeasure(c *cell, v *kits.ItemLine) {
	m, ok := kits.ParseMeasure(c.word())
	if !ok {
		c.wrong("measure", c.word())
	}
	v.Stocked = m
}

// Words of the column use.
const (
	useSingle      = "single"
	useReprocessed = "reprocessed"
	useNone        = "none"
)

func useText(v kits.ItemLine) string {
	switch {
	case v.Has(kits.Reprocessed):
		return useReprocessed
	case v.Group == kits.GroupPeople, v.Group == kits.GroupBundle:
		return useNone
	}
	return useSingle
}

func readUse(c *cell, v *kits.ItemLine) {
	v.Flags &^= kits.Reprocessed
	switch c.word() {
	case useReprocessed:
		v.Flags |= kits.Reprocessed
	case useSingle, useNone:
	default:
		c.wrong("use", c.word())
	}
}

// exitText is a policy as a cell holds it.
func exitText(e kits.ExitPolicy) string {
	switch e {
	case kits.Discard:
		return "discard"
	case kits.Decontaminate:
		return "decontaminate"
	case kits.QuarantineDays:
		return "quarantine"
	case kits.ReturnUntaken:
		return "return-untaken"
	}
	return ""
}

func readExit(c *cell, v *kits.ItemLine) {
	for e := kits.Discard; e <= kits.ReturnUntaken; e++ {
		if exitText(e) == c.word() {
			v.Exit = e
			return
		}
	}
	c.wrong("exit", c.word())
}

func readCurrency(c *cell, v *kits.ItemLine) {
	v.Currency = mesh.ID(strings.ToLower(c.word()))
	if v.Currency != "" && !regexp.MustCompile(`^[a-z]{3}$`).MatchString(string(v.Currency)) {
		c.bad("currency", c.word())
	}
}

func numberText(n mesh.Number) string {
	if n == 0 {
		return ""
	}
	return strconv.FormatUint(uint64(n), 10)
}

func numbersText(all []mesh.Number) string {
	texts := make([]string, len(all))
	for i, n := range all {
		texts[i] = numberText(n)
	}
	return strings.Join(texts, " ")
}

// measureText is the word that kits.ParseMeasure reads.
func measureText(m mesh.Measure) string {
	switch m {
	case mesh.Each:
		return "each"
	case mesh.Microgram:
		return "microgram"
	case mesh.Microlitre:
		return "microlitre"
	case mesh.Unit:
		return "unit"
	case mesh.Micromole:
		return "micromole"
	}
	return ""
}

func amountText(q kits.Quantity) string {
	if q.N == 0 {
		return ""
	}
	return fmt.Sprintf("%d %s", q.N, measureText(q.Measure))
}
