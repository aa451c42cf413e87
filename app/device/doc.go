// Package device joins the parts of one device: the network (mesh/lan), the
// disk (mesh/disk) and the station, over one data folder. Every command is
// built on it.
//
// A data folder holds
//
//	device.key    the device's private key, 0600
//	device.json   what the device is called, which unit it belongs to, whom it
//	              was let in by, where others were reached, and when pairing
//	              failed
//	groups/HEX/   one log per unit the device has belonged to
//	pictures/HEX  pictures of items and maps of places, each named by its SHA-256
//
// Pictures are no entries: the catalogue names them by hash, and a device that
// lacks one fetches it from a member with a link, one at a time. One that was
// lost is fetched again; they can be copied, and left out of an archive.
//
// A device that belongs to no unit can found one or join one by code. Asking
// for something before that founds a unit of its own, so that nothing a person
// records is lost; when it later joins another, what it recorded alone is
// entered again there.
package device
