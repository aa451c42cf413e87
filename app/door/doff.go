package door

import (
	"slices"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
	"lintel/mesh"
)

// next is the first step of doffing that was not read to somebody yet.
func (s Snapshot) next(r Room, tag mesh.Tag) int {
	for i, x := range s.Doff {
		if !slices.ContainsFunc(r.Doffed[tag], func(d Step) bool { return d.Step == x.ID }) {
			return i
		}
	}
	return len(s.Doff)
}

// doffPage is one step, to be read aloud.
func doffPage(w words.Words, s Snapshot, h hand) face {
	f := face{Head: w.Say("door.doff-head", h.tag, h.at+1, len(s.Doff))}
	if s.By.Tag != "" {
		f.Head = joined(f.Head, w.Say("door.read-by", s.By.Tag))
	}
	if h.at >= len(s.Doff) {
		return f
	}
	x := s.Doff[h.at]
	f.Word = look.BigWordFace{Word: x.Words}
	done := func(id words.ID, good bool, tone look.Tone) choice {
		face := look.TileFace{Word: w.Say(id), Tone: tone}
		return sheet.Tile(face, pick{what: picksDoffed, tag: h.tag, id: x.ID, yes: good, said: w.Say(id)})
	}
	f.Choices = []choice{done("door.step-done", true, look.TonePlain), done("door.step-not-well", false, look.ToneNext)}
	if h.at > 0 {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: w.Say("door.step-before")}, pick{what: picksDoffBack}))
	}
	return f
}

// doffedPage is how each step went.
func doffedPage(w words.Words, s Snapshot, r Room, h hand) face {
	f := face{Head: w.Say("door.doffed", h.tag)}
	for _, x := range s.Doff {
		i := slices.IndexFunc(r.Doffed[h.tag], func(d Step) bool { return d.Step == x.ID })
		said := look.BannerFace{Sentence: x.Words, Hint: w.Say("door.step-unread"), Tone: look.ToneNext}
		if i >= 0 {
			d := r.Doffed[h.tag][i]
			said.Tone, said.Hint = look.TonePlain, joined(w.Say("door.step-done"), string(d.By))
			if !d.Good {
				said.Tone, said.Hint = look.ToneNext, joined(w.Say("door.step-not-well"), string(d.By))
			}
		}
		f.Lines = append(f.Lines, line{Face: said, Still: true})
	}
	if p, in := r.person(h.tag); in {
		f.Choices = append(f.Choices, outChoices(w, s, p)...)
	}
	return f
}
