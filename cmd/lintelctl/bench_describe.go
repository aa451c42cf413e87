package main

// benchDescription says what the figures of bench run stand for.
type benchDescription struct {
	What      string `json:"what"`
	Placement string `json:"placement"` // direct: between the two processes, nothing in the middle
	Copies    int    `json:"copies"`    // on disks when a receipt counts
	Where     string `json:"where"`
	How       string `json:"how"`
	Less      string `json:"less"`
}

func describeBench() benchDescription {
	return benchDescription{
		What: "One tap is one entry of an append-only log shared by the devices of a unit. A sample of receipt, pipeline and " +
			"fanout runs from before the tap until the author holds the receipt of the other device (in fanout: of all); of ack, " +
			"until it has stored an entry with which the other device's program answered; of catchup, from the link standing until " +
			"everything written while the other device was off is receipted. The author syncs an entry to its disk before it sends " +
			"it, the receiver syncs it before the receipt; entries are signed (Ed25519) and chained (SHA-256), sessions are " +
			"encrypted (TLS 1.3 with both sides' keys pinned, over QUIC or TCP).",
		Placement: "direct",
		Copies:    2,
		Where: "Every device is a process of its own with its own folder under -dir; they are joined by code and talk over " +
			"loopback with the shipped limits. Nothing stands between them; in fanout there is one copy more for each further receiver.",
		How: "The program starts itself; the devices are the same as those of the other commands. Five taps warm up. One batch " +
			"of entries shares one write, one sync and one signature, however many taps wait. loop_us is the median of a bare loop " +
			"between the same two processes and folders, half of it before and half after the work: append the same number of " +
			"bytes and sync, send over TLS on TCP, append and sync there, answer one byte. elapsed_us and cpu_us (user and system, " +
			"all processes) cover what is measured, without starting and joining. stored counts entries read back from the " +
			"receiver's disk (in fanout, from the one that has least) after the processes have ended.",
		Less: "No window is drawn and no person taps. The entries are lines of debrief text, stored and forwarded but in no list, " +
			"so no request is worked out from them. Both ends share one machine, one disk and its clock, so there is no radio and no loss.",
	}
}
