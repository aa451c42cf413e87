package main

// cut stops devices so that no frame of theirs moves, and waits until a runner
// sees that they are gone. False: this system cannot stop a process, and the
// case goes on without a cut.
func (s *scene) cut(names ...string) bool {
	if s.err != nil {
		return false
	}
	for _, n := range names {
		if !s.players[n].stop() {
			s.heal(names...)
			return false
		}
	}
	for _, n := range names {
		s.until(playRunner, "peers", func(a reply) bool { return health(a, n) == "not-connected" })
	}
	s.wasCut = s.err == nil
	return true
}

// heal lets them go on, and waits until each is connected again.
func (s *scene) heal(names ...string) {
	for _, n := range names {
		s.players[n].goOn()
	}
	for _, n := range names {
		s.until(n, "peers", func(a reply) bool { return health(a, playRunner) == "connected" })
	}
}

// health is how a device of that name answers, in a list of peers.
func health(a reply, name string) string {
	for _, l := range a.listed {
		if l.Name == name {
			return l.Health
		}
	}
	return ""
}
