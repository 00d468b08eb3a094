package fit

import (
	"boardwrap.example/folio/boards"
	"boardwrap.example/internal/word"
	"boardwrap.example/pocket"
	"boardwrap.example/units"
)

// A RoomKind is a way to put something flat into a folio.
type RoomKind uint8

// Kinds of rooms.
const (
	OnPanel RoomKind = iota // on a mat of its own, on a free part of a panel
	Mounted                 // on a fitting that is there, laid on from above
	Slipped                 // into a fitting that is there, through its mouth
)

var roomKinds = word.List{What: "kind of room", Words: []string{OnPanel: "on the panel", Mounted: "mounted on", Slipped: "slipped into"}}

// String returns "on the panel", "mounted on" or "slipped into".
func (k RoomKind) String() string { return roomKinds.String(uint8(k)) }

// AppendText appends the text of [RoomKind.String]. The error matches
// units.ErrUnknown.
func (k RoomKind) AppendText(dst []byte) ([]byte, error) { return roomKinds.Append(dst, uint8(k)) }

// MarshalText returns the text of [RoomKind.String], with the error of
// [RoomKind.AppendText].
func (k RoomKind) MarshalText() ([]byte, error) { return roomKinds.Marshal(uint8(k)) }

// UnmarshalText reads what [RoomKind.String] writes. The error matches
// units.ErrSyntax.
func (k *RoomKind) UnmarshalText(text []byte) error { return word.Unmarshal(roomKinds, k, text) }

// A Room is a place of a plan that takes something flat, a photograph, a card, a
// note: a spot of a fitting, or the free part of a panel.
type Room struct {
	kind          RoomKind
	panel         boards.Role
	fitting, spot int
	name          string
	size, least   units.Size
	rect          units.Rect
	thickness     units.Length
	film          units.Length // of adhesive, under what is mounted
	count         int
	content       pocket.Content // that the spot was designed for
}

// Kind says how something is put there.
func (r Room) Kind() RoomKind { return r.kind }

// Panel is the board that it belongs to.
func (r Room) Panel() boards.Role { return r.panel }

// Fitting is the place of its fitting in [folio.Plan.Fittings] and which of the
// fitting's spots it is; both are −1 for a panel.
func (r Room) Fitting() (index, spot int) { return r.fitting, r.spot }

// Size is the largest width and height that go there, ease and reveal taken off;
// on a panel it is that of the whole panel.
func (r Room) Size() units.Size { return r.size }

// Least is the smallest that stays there, as [folio.Spot.Least].
func (r Room) Least() units.Size { return r.least }

// Rect is where the room lies on the row.
func (r Room) Rect() units.Rect { return r.rect }

// Thickness is the most that goes there; on a panel, and on a fitting that sets
// no limit itself, what closing leaves at the tightest place over the room.
func (r Room) Thickness() units.Length { return r.thickness }

// Count is how many of what it was designed for go there together, at least 1.
func (r Room) Count() int { return max(r.count, 1) }

// share is the most that each may be thick where several go there together.
func (r Room) share() units.Length {
	l, _ := r.thickness.Scale(1, int64(r.Count()), units.Down)
	return l
}

// String names the room in a few words: "slipped into the strip", "on the panel
// of the right cover".
func (r Room) String() string {
	if r.kind == OnPanel {
		return r.kind.String() + " of the " + r.panel.String()
	}
	return r.kind.String() + " the " + r.name
}

// takes reports whether a content goes into the room of a fitting as it lies.
func (r Room) takes(c pocket.Content) bool {
	return sound(c) && c.Size.FitsIn(r.size) && r.least.FitsIn(c.Size) && c.Thickness <= r.thickness
}

// sound reports whether a content has a size and no thickness below 0.
func sound(c pocket.Content) bool { return !c.Size.Empty() && c.Thickness >= 0 }

// A Berth is how a content lies in a room: as it is or after a quarter turn,
// and where on the row. It closes over it; whether it touches something on the way
// [Survey.With] tells.
type Berth struct {
	room    Room
	content pocket.Content
	turned  bool
	rect    units.Rect
}

// Room is where it goes.
func (w Berth) Room() Room { return w.room }

// Content is what goes there, turned if it was.
func (w Berth) Content() pocket.Content { return w.content }

// Turned reports whether it goes in after a quarter turn.
func (w Berth) Turned() bool { return w.turned }

// Rect is where it lies on the row.
func (w Berth) Rect() units.Rect { return w.rect }
