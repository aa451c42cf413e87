package look

// Fault is the one place where a screen says what went wrong.
type Fault struct {
	Banner
}

// NewFault makes one that says nothing, with room for some rows of a role.
func NewFault(l *Look, r Role, rows int) *Fault {
	f := &Fault{Banner: newBanner(l, r, rows)}
	f.ExtendBaseWidget(f)
	return f
}

// Say shows a sentence and what to do about it; two empty ones take it away.
// It takes words, never an error.
func (f *Fault) Say(sentence, hint string) {
	f.Set(BannerFace{Icon: IconUrgent, Sentence: sentence, Hint: hint, Tone: ToneFault})
}
