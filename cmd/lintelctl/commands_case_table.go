package main

// caseCommands record what belongs to a case.
func caseCommands() []command {
	return []command{
		{"case", "case open ROOM [WHAT] [hurry] [label L] [follows A1] [anyway] | shut [room A1] [WHY] | move [room A1] TO", "help.case", (*session).caseCommand},
		{"role", "role TAG ROLE [room A1]", "help.role", (*session).role},
		{"tick", "tick LIST LINE [off] [room A1] [WORDS]", "help.tick", (*session).tick},
		{"skip", "skip LIST [room A1] [LINE]…", "help.skip", (*session).skip},
		{"ppe", "ppe WEARER CHECKER [off] [bad] [room A1] [WORDS]", "help.ppe", (*session).ppe},
		{"test", "test [door A1] [room A1] [battery N] [charging] [locked]", "help.test", (*session).test},
		{"hear-test", "hear-test FACT [sound]", "help.hear-test", (*session).hearTest},
		{"say", "say PHRASE [out|in] [room A1]", "help.say", (*session).say},
		{"heard", "heard FACT", "help.heard", (*session).heardCommand},
		{"enter", "enter TAG [ZONE] [checked-by T] [room A1]", "help.enter", (*session).enter},
		{"leave", "leave TAG [ZONE] [checked-by T] [room A1]", "help.leave", (*session).leave},
		{"breach", "breach TAG WHAT [room A1] [WORDS]", "help.breach", (*session).breach},
		{"doff", "doff TAG STEP CHECKER [bad] [room A1]", "help.doff", (*session).doff},
		{"door-open", "door-open [room A1]", "help.door-open", (*session).doorOpen},
		{"door-shut", "door-shut [room A1]", "help.door-shut", (*session).doorShut},
		{"ended", "ended used|given|wasted|destroyed|broken|… ITEM xN [room A1] [lot L]", "help.ended", (*session).ended},
		{"draw-up", "draw-up ITEM xN into N mL [by T] [checked-by T] [LABEL]", "help.draw-up", (*session).drawUp},
		{"left-with", "left-with UNIT syringe MARK|ITEM xN [room A1] [received-by T]", "help.left-with", (*session).leftWith},
		{"time", "time WHAT [attempt N] [room A1] [WORDS]", "help.time", (*session).timeCommand},
		{"fix-time", "fix-time FACT [within 5s] at TIME", "help.fix-time", (*session).fixTime},
		{"chart", "chart HH:MM [within 1s] [room A1]", "help.chart", (*session).chart},
		{"debrief", "debrief held|not [room A1] [WHY]", "help.debrief", (*session).debrief},
		{"debrief-line", "debrief-line LINE [room A1] WORDS", "help.debrief-line", (*session).debriefLine},
		{"drill", "drill start|second ROOM [LABEL]", "help.drill", (*session).drill},
		{"inject", "inject WHAT [room A1] [WORDS]", "help.inject", (*session).inject},
		{"real", "real [room A1]", "help.real", (*session).real},
	}
}

// caseLists look at cases, and at what the unit has written down as its own.
func caseLists() []command {
	return []command{
		{"cases", "cases", "help.cases", (*session).listCases},
		{"facts", "facts [room A1|CASE]", "help.facts", (*session).listFacts},
		{"timeline", "timeline [room A1|CASE]", "help.timeline", (*session).timeline},
		{"figures", "figures [all|room A1|CASE]", "help.figures", (*session).figures},
		{"calls", "calls", "help.calls", (*session).calls},
		{"runners", "runners [ROOM]", "help.runners", (*session).runners},
		{"bag", "bag [ROOM]", "help.bag", (*session).bag},
		{"openings", "openings [ROOM]", "help.openings", (*session).openings},
		{"usual", "usual ITEM [now|next|before]", "help.usual", (*session).usual},
		{"air", "air [ROOM]", "help.air", (*session).air},
		{"stay", "stay", "help.stay", (*session).stay},
		{"list", "list LIST [room A1|CASE]", "help.list", (*session).listCommand},
		{"line", "line LIST ID [place N] [gone] [WORDS]", "help.line", (*session).lineCommand},
		{"setting", "setting [NAME [VALUE]]", "help.setting", (*session).setting},
		{"layout", "layout [accept NAME [PLACE=ITEM]…]", "help.layout", (*session).layout},
	}
}
