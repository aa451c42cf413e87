// Package stage is where tests play a screen: on glasses of several sizes,
// with taps that are noted and answered at once, with entries that are folded
// without a device, and with what the screen says kept in files. No program
// imports it.
//
//	s := stage.New(t, look.Dark, stage.Glasses()["phone"])
//	s.Show(myscreen.New(myscreen.Options{Look: s.Look, Taps: s.Taps, Now: s.Clock, …}).Object())
//	s.Tap("goes in")
//	require.Equal(t, []station.Act{…}, s.Taps.Acts)
//
// An application has to be there first: TestMain makes the toolkit's own one.
package stage
