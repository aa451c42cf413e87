package charge

// Open shows a page, as a tap that leads there does. It is asked for by
// Options.Want, and shown once its Snapshot is set. Call it on the UI goroutine.
func (s *Screen) Open(at Wanted) { s.open(at) }
