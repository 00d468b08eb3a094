package units

// Exact returns the ruler of the notation on which every length is a
// graduation: it rounds nothing, and workings on it are written in the
// notation wherever that has an exact text.
func (n Notation) Exact() Ruler { return Ruler(1) | Ruler(n)<<notationShift }
