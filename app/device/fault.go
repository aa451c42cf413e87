package device

import (
	"errors"
	"io/fs"
	"net"
	"runtime"
	"syscall"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/mesh/disk"
	"lintel/mesh/lan"
)

// worded ties one error to its sentence.
type worded struct {
	err error
	id  words.ID
}

// sentences is the one table from errors to words. The first that fits is said.
func sentences() []worded {
	return []worded{
		{station.ErrNoRequest, "no-request"}, {station.ErrNoItem, "no-item"}, {station.ErrCount, "count"},
		{station.ErrNoRoom, "no-room"}, {station.ErrNoRunner, "no-runner"}, {station.ErrNotAtDoor, "not-at-door"},
		{station.ErrNoAnswer, "no-answer-due"}, {station.ErrSameRequest, "same-request"}, {station.ErrCode, "joining-code"}, {station.ErrNoRole, "no-role"},
		{station.ErrAlternative, "alternative"}, {station.ErrNoDevice, "no-device"}, {station.ErrStopped, "stopped"},
		{station.ErrNoCase, "no-case"}, {station.ErrManyCases, "case-many"}, {station.ErrCaseThere, "case-there"}, {station.ErrDuring, "during-case"},
		{station.ErrNoTag, "no-tag"}, {station.ErrNoZone, "no-zone"}, {station.ErrNoLine, "no-line"}, {station.ErrNoFact, "no-fact"},
		{station.ErrNoDrill, "no-drill"}, {station.ErrWhen, "no-time"}, {station.ErrNoReason, "no-reason"}, {station.ErrTile, "tile"},
		{station.ErrNoEnd, "no-end"}, {station.ErrNoDrug, "no-drug"}, {station.ErrNoSyringe, "no-syringe"}, {station.ErrSetting, "no-setting"}, {station.ErrSettingValue, "setting-value"}, {station.ErrWrongDoor, "wrong-door"},
		{station.ErrNoKit, "no-kit"}, {station.ErrNoTemplate, "no-template"}, {station.ErrNoPlace, "no-place"}, {station.ErrNoIssue, "no-issue"},
		{station.ErrNoMovement, "no-movement"}, {station.ErrNoHandOver, "no-hand-over"}, {station.ErrNoSeal, "no-seal"}, {station.ErrNoLot, "no-lot"},
		{station.ErrNoWaste, "no-waste"}, {station.ErrSameTag, "same-tag"},
		{station.ErrNothing, "nothing-recorded"}, {station.ErrBusy, "busy"},
		{ErrNoUnit, "no-unit"}, {ErrHasUnit, "has-unit"}, {ErrNotWritten, "not-written"}, {ErrConfig, "config"}, {ErrPicturesFull, "pictures-full"},
		{ErrNoFolder, "folder-missing"}, {ErrNoLog, "folder-empty"},
		{lan.ErrPortInUse, "port"}, {lan.ErrAddress, "address"}, {lan.ErrNoAnswer, "no-answer"}, {lan.ErrOwnAddress, "own-address"},
		{lan.ErrNotAdmitted, "not-admitted"}, {lan.ErrRefused, "refused"}, {lan.ErrOtherGroup, "other-unit"},
		{lan.ErrOtherVersion, "other-version"}, {lan.ErrCodeTyped, "code-typed"}, {lan.ErrCodeWrong, "code-wrong"},
		{lan.ErrPairingClosed, "pairing-closed"}, {lan.ErrNoInvitation, "no-invitation"}, {lan.ErrCodeOver, "code-over"},
		{lan.ErrNoGroup, "no-unit"}, {lan.ErrDeclined, "declined"}, {lan.ErrWelcome, "welcome"}, {lan.ErrUnconfirmed, "unconfirmed"},
		{lan.ErrOptions, "listen"},
		{disk.ErrLocked, "locked"}, {disk.ErrFormat, "format"}, {disk.ErrKey, "key"}, {disk.ErrPoisoned, "poisoned"},
		{mesh.ErrText, "text"}, {mesh.ErrTooLong, "too-long"}, {mesh.ErrRange, "range"},
		{syscall.ENOSPC, "disk-full"}, {fs.ErrPermission, "folder-denied"}, {syscall.ENOTDIR, "folder"},
		{fs.ErrNotExist, "folder"}, {fs.ErrExist, "folder"},
	}
}

// Windows names a full disk by these numbers.
const (
	windowsHandleFull = 39
	windowsDiskFull   = 112
)

// Fault gives the id under which the words package says what went wrong and
// what to do, and what fills its blanks. An error that has no words of its own
// is "other", with its text in the blank. The blanks of some sentences are
// better known to the caller: an address, a folder, a name.
func Fault(err error) (id words.ID, blanks []any) {
	for _, s := range sentences() {
		if errors.Is(err, s.err) {
			return s.id, faultBlanks(err)
		}
	}
	if id, blanks, is := pictureFault(err); is {
		return id, blanks
	}
	var number syscall.Errno
	if runtime.GOOS == "windows" && errors.As(err, &number) && (number == windowsHandleFull || number == windowsDiskFull) {
		return "disk-full", nil
	}
	var op *net.OpError
	if errors.As(err, &op) {
		return "listen", nil // dialling has errors of its own, above
	}
	return "other", []any{err.Error()}
}

func faultBlanks(err error) []any {
	var wrong *lan.CodeWrongError
	if errors.As(err, &wrong) {
		return []any{wrong.Left}
	}
	var door *station.WrongDoorError
	if errors.As(err, &door) {
		return []any{door.For, door.Read}
	}
	var line *station.NoLineError
	if errors.As(err, &line) {
		return []any{line.List, line.Line}
	}
	var named *station.NamedError
	if errors.As(err, &named) {
		return []any{named.Name}
	}
	var closed *lan.PairingClosedError
	if errors.As(err, &closed) {
		return []any{closed.Until.Local().Format("15:04:05")}
	}
	return nil
}
