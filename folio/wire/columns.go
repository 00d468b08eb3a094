package wire

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"boardwrap.example/folio"
	"boardwrap.example/units/check"
)

// MostColumns is how many columns a table of Specs may have.
const MostColumns = 1000

// Columns are the fields that the columns of a table of Specs hold: a
// spreadsheet with a Spec in each row. They are safe to share.
type Columns struct{ paths [][]string }

// NewColumns reads the header of a table. A column is named by the path of its
// field, as violations name it and documents do: cover, spine.width,
// fittings[0].kind.type; upper case or lower does not matter. The error is for
// everything that leads to no field, leads to one that holds others, or comes
// twice.
func NewColumns(header []string) (*Columns, error) {
	if len(header) > MostColumns {
		return nil, errors.New("wire: " + strconv.Itoa(len(header)) + " columns; want at most " + strconv.Itoa(MostColumns))
	}
	c := &Columns{}
	var wrong []error
	seen := map[string]bool{}
	for i, name := range header {
		path, err := columnPath(name)
		key := strings.Join(path, ".")
		if err == nil && seen[key] {
			err = errors.New("there is such a column already")
		}
		seen[key] = true
		if err != nil {
			wrong = append(wrong, errors.New("wire: column "+strconv.Itoa(i+1)+", "+check.Quote(name)+": "+err.Error()))
		}
		c.paths = append(c.paths, path)
	}
	if n := c.elements(); len(wrong) == 0 && n > MostMembers {
		wrong = append(wrong, errors.New("wire: the columns speak of lists with "+strconv.Itoa(n)+" elements; want at most "+strconv.Itoa(MostMembers)))
	}
	if err := errors.Join(wrong...); err != nil {
		return nil, err
	}
	return c, nil
}

// elements is how many elements the lists of a full row have, those between the
// ones that columns speak of included.
func (c *Columns) elements() int {
	lists := map[string]int{}
	for _, path := range c.paths {
		for i, part := range path {
			if isIndex(part) {
				k, _ := strconv.Atoi(part) // columnPath made sure of it
				list := strings.Join(path[:i], ".")
				lists[list] = max(lists[list], k+1)
			}
		}
	}
	n := 0
	for _, length := range lists {
		n += length
	}
	return n
}

// Read reads a row as ReadSpec reads a document: what a document has as a text,
// a number, true or false stands in its cell as it is. An empty cell is left
// out. The error is an *[Error] whose faults count cells as columns, from 1.
func (c *Columns) Read(row []string) (folio.Spec, error) {
	f := &faults{cells: true}
	if len(row) != len(c.paths) {
		f.add(Fault{Code: WrongForm, Got: strconv.Itoa(len(row)) + " cells", Want: strconv.Itoa(len(c.paths)) + ", as in the header"}, 0)
		return folio.Spec{}, f.err()
	}
	root := &node{form: isObject}
	for i, cell := range row {
		if !utf8.ValidString(cell) {
			f.add(Fault{Code: BadText, Got: check.Quote(cell), Want: "a text in UTF-8"}, int64(i))
			return folio.Spec{}, f.err()
		}
		if cell = strings.TrimSpace(cell); cell != "" {
			root.grow(c.paths[i], &node{form: isCell, at: int64(i), text: cell})
		}
	}
	var s folio.Spec
	d := decoder{faults: f}
	d.enter(crumb{name: "spec"})
	d.readFolioSpec(root, &s)
	if err := f.err(); err != nil {
		return folio.Spec{}, err
	}
	return s, nil
}

// grow puts a cell where its path leads to. Elements of a list that no cell
// speaks of are empty objects.
func (n *node) grow(path []string, cell *node) {
	for i, part := range path {
		next := cell
		if i+1 < len(path) {
			next = &node{form: isObject, at: cell.at}
			if isIndex(path[i+1]) {
				next.form = isArray
			}
		}
		n = n.below(part, next)
	}
}

// below returns what a member or an element is, and makes it first where there
// is none.
func (n *node) below(part string, next *node) *node {
	if !isIndex(part) {
		for _, m := range n.members {
			if m.name == part {
				return m.value
			}
		}
		n.members = append(n.members, member{part, next.at, next})
		return next
	}
	k, _ := strconv.Atoi(part) // columnPath made sure of it
	for len(n.list) <= k {
		n.list = append(n.list, &node{form: isObject, at: next.at})
	}
	if v := n.list[k]; v.form == isObject && len(v.members) == 0 {
		n.list[k] = next
	}
	return n.list[k]
}

func isIndex(part string) bool { return part[0] >= '0' && part[0] <= '9' }

// columnPath is the members and indices on the way to a field.
func columnPath(name string) ([]string, error) {
	var path []string
	at := part{of: shapeFolioSpec}
	for name := range strings.SplitSeq(strings.TrimSpace(name), ".") {
		name, indices, _ := strings.Cut(name, "[")
		below, ok := partBelow(at, name)
		if !ok {
			return nil, errors.New("there is no field " + check.Quote(name))
		}
		path, at = append(path, below.name), below
		if indices == "" {
			continue
		}
		index, ok := strings.CutSuffix(indices, "]")
		k, err := strconv.ParseUint(index, 10, 32)
		if !ok || err != nil || k >= MostColumns || !at.list {
			return nil, errors.New(check.Quote("["+indices) + " is no element of a list; want a number from 0 to " + strconv.Itoa(MostColumns-1) + " in brackets")
		}
		path, at.list = append(path, strconv.FormatUint(k, 10)), false
	}
	if at.list || !isCellShape(at.of) {
		return nil, errors.New("this holds others; want the path of one of them")
	}
	return path, nil
}

// isCellShape reports whether a cell can hold what has a shape.
func isCellShape(s shape) bool { return s <= lastOwnShape }

// partBelow finds a field by its name in any case; among kinds, that of the
// first which has it, as the row says only later which kind it is.
func partBelow(of part, name string) (part, bool) {
	if of.list || isCellShape(of.of) {
		return part{}, false
	}
	if f := familyAt(of.of); f != nil {
		if strings.EqualFold(name, tag) {
			return part{name: tag}, true
		}
		for _, k := range f.shapes {
			if found, ok := partBelow(part{of: k}, name); ok {
				return found, true
			}
		}
	}
	for _, p := range parts(of.of) {
		if strings.EqualFold(p.field, name) {
			return p, true
		}
	}
	return part{}, false
}
