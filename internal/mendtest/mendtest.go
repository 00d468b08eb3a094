// Package mendtest does what violations say would do: it finds the field of a
// violation's path in the value that was refused, reads from the violation's
// text what is wanted there, and sets it, as someone would who has nothing but
// the message.
//
// It is for tests only and knows nothing of the rooms but units.
package mendtest

import (
	"encoding"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"boardwrap.example/units"
	"boardwrap.example/units/check"
)

// At follows a path from a value that can be set, every name that of an exported
// field in lower case or of one in an embedded value, and calls do with what is there. Where the way leads
// through an interface, its value is copied, changed and put back. The error is
// for a path that leads nowhere.
func At(v reflect.Value, path string, do func(reflect.Value)) error {
	if v.Kind() == reflect.Interface && !v.IsNil() && path != "" {
		own := reflect.New(v.Elem().Type()).Elem()
		own.Set(v.Elem())
		err := At(own, path, do)
		v.Set(own)
		return err
	}
	if path == "" {
		do(v)
		return nil
	}
	if inside, ok := strings.CutPrefix(path, "["); ok {
		index, rest, _ := strings.Cut(inside, "]")
		i, err := strconv.Atoi(index)
		if err != nil || v.Kind() != reflect.Slice && v.Kind() != reflect.Array || i < 0 || i >= v.Len() {
			return fmt.Errorf("there is no element %s", path)
		}
		return At(v.Index(i), rest, do)
	}
	path = strings.TrimPrefix(path, ".")
	name, rest := path, ""
	if end := strings.IndexAny(path, ".["); end >= 0 {
		name, rest = path[:end], path[end:]
	}
	if v.Kind() == reflect.Struct {
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && strings.ToLower(f.Name) == name {
				return At(v.Field(i), rest, do)
			}
		}
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.Anonymous && f.IsExported() {
				if err := At(v.Field(i), path, do); err == nil {
					return nil
				}
			}
		}
	}
	return fmt.Errorf("there is no field %s in a %v", name, v.Type())
}

// Copy returns a copy of a value whose slices are its own, at every depth.
func Copy[T any](v T) T {
	out := reflect.New(reflect.TypeFor[T]()).Elem()
	out.Set(reflect.ValueOf(&v).Elem())
	own(out)
	return out.Interface().(T)
}

func own(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				own(v.Field(i))
			}
		}
	case reflect.Slice:
		if !v.IsNil() {
			s := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
			reflect.Copy(s, v)
			v.Set(s)
		}
		for i := range v.Len() {
			own(v.Index(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			own(v.Index(i))
		}
	case reflect.Interface:
		if !v.IsNil() {
			k := reflect.New(v.Elem().Type()).Elem()
			k.Set(v.Elem())
			own(k)
			v.Set(k)
		}
	}
}

// An Outcome is what came of doing what would do.
type Outcome uint8

// Outcomes.
const (
	Mended  Outcome = iota // that violation is gone
	Advice                 // the text leaves a choice that no field is set by
	NotDone                // it was done, and the violation is there still
	Astray                 // the path leads to no field, or the limit is none of its kind
)

// A Finding is what came of one violation.
type Finding struct {
	Outcome Outcome
	Text    string // what went wrong
}

// Try does what a violation says would do on a copy of the value that was
// refused, and looks whether again has that violation still. What the limit says
// to a program is done too, by itself. Offers are names and kinds that a text may ask for.
func Try[T any](of T, v check.Violation, offers []any, again func(T) error) Finding {
	if v.Got == "" || v.Want == "" {
		return Finding{Astray, v.Error() + ": says too little"}
	}
	if v.Bound != check.NoBound {
		m := Copy(of)
		length := false
		err := At(reflect.ValueOf(&m).Elem(), v.Path, func(f reflect.Value) {
			if length = f.Type() == reflect.TypeFor[units.Length](); length {
				f.SetInt(int64(v.Limit))
			}
		})
		if err != nil || !length || v.By <= 0 {
			return Finding{Astray, fmt.Sprintf("%v: %v, a length: %t, off by %v", v, err, length, v.By)}
		}
		if there, ok := find(again(m), v); ok {
			return Finding{NotDone, fmt.Sprintf("%v\n  with the limit %v: %v", v, v.Limit, there)}
		}
	}
	if strings.HasPrefix(v.Want, leftOut) {
		return leaveOut(of, v, again)
	}
	m := Copy(of)
	list, set, found := do(&m, &v, offers)
	if found.Outcome != Mended {
		return found
	}
	if there, ok := find(again(m), v); ok && !(list && count(again(m), v) < count(again(of), v)) {
		return Finding{NotDone, fmt.Sprintf("%v\n  with %s: %v", v, set, there)}
	}
	return Finding{}
}

// Do does what a violation says would do on a value, and says whether that can be done.
func Do[T any](of *T, v check.Violation, offers []any) Outcome {
	if strings.HasPrefix(v.Want, leftOut) {
		return withoutElement(of, v).Outcome
	}
	_, _, found := do(of, &v, offers)
	return found.Outcome
}

// do sets what a violation asks for, and returns whether that is a list and what it is
// then; the path becomes that where it would be told next.
func do[T any](of *T, v *check.Violation, offers []any) (list bool, set string, found Finding) {
	read := false
	err := At(reflect.ValueOf(of).Elem(), v.Path, func(f reflect.Value) {
		read = obey(f, *v, offers)
		list, set = f.Kind() == reflect.Slice, fmt.Sprint(f)
	})
	switch {
	case err != nil:
		return list, set, Finding{Astray, v.Error() + ": " + err.Error()}
	case !read:
		return list, set, Finding{Advice, v.Error()}
	}
	if beside := instead.FindStringSubmatch(v.Want); beside != nil {
		path := v.Path[:strings.LastIndexByte(v.Path, '.')+1] + beside[1]
		if err := At(reflect.ValueOf(of).Elem(), path, func(f reflect.Value) { number(f, beside[2]) }); err != nil {
			return list, set, Finding{Astray, v.Error() + ": " + err.Error()}
		}
		v.Path = path // where it would be now
	}
	return list, set, Finding{}
}

// leftOut is how a text asks for an element of a list to go.
const leftOut = "it left out"

// leaveOut takes an element out of its list. What the others are then called is
// another matter, so there must be one violation less of its kind.
func leaveOut[T any](of T, v check.Violation, again func(T) error) Finding {
	m := Copy(of)
	if found := withoutElement(&m, v); found.Outcome != Mended {
		return found
	}
	if left := alike(again(m), v); left >= alike(again(of), v) {
		return Finding{NotDone, fmt.Sprintf("%v\n  without it there are %d left", v, left)}
	}
	return Finding{}
}

// withoutElement takes the element at the path of a violation out of its list.
func withoutElement[T any](of *T, v check.Violation) Finding {
	open := strings.LastIndexByte(v.Path, '[')
	if open < 0 || !strings.HasSuffix(v.Path, "]") {
		return Finding{Astray, v.Error() + ": nothing that can be left out"}
	}
	i, err := strconv.Atoi(v.Path[open+1 : len(v.Path)-1])
	there := false
	if err == nil {
		err = At(reflect.ValueOf(of).Elem(), v.Path[:open], func(f reflect.Value) {
			if there = f.Kind() == reflect.Slice && i < f.Len(); there {
				f.Set(reflect.AppendSlice(f.Slice(0, i), f.Slice(i+1, f.Len())))
			}
		})
	}
	if err != nil || !there {
		return Finding{Astray, fmt.Sprintf("%v: no such element, %v", v, err)}
	}
	return Finding{}
}

// alike counts the violations of a code in the list of a violation.
func alike(err error, v check.Violation) int {
	list, ok := err.(*check.Error)
	if !ok {
		return 0
	}
	n := 0
	for w := range list.All() {
		if w.Code == v.Code && strings.HasPrefix(w.Path, v.Path[:strings.LastIndexByte(v.Path, '[')+1]) {
			n++
		}
	}
	return n
}

// count counts the violations of a path and code: a list can lack more than one
// thing.
func count(err error, v check.Violation) int {
	list, ok := err.(*check.Error)
	if !ok {
		return 0
	}
	n := 0
	for w := range list.All() {
		if w.Path == v.Path && w.Code == v.Code {
			n++
		}
	}
	return n
}

// find finds a violation in the error of the next try.
func find(err error, v check.Violation) (check.Violation, bool) {
	list, ok := err.(*check.Error)
	if !ok {
		return check.Violation{}, false
	}
	return list.Find(v.Path, v.Code)
}

var (
	// something is a number with what stands before a further word.
	span      = regexp.MustCompile(`^(?:a length |a place |a score |a panel |an extent |a count |a grammage )?(?:from |between )?(\S.*?) (?:to|and) (\d.*)$`)
	atLeast   = regexp.MustCompile(`^(?:a sheet of |a gap of |a spine of |a base of |a longest cut of )?at least (.*)$`)
	at        = regexp.MustCompile(`^(?:a place|a score) at (\d.*)$`)
	atMost    = regexp.MustCompile(`^(?:[a-z ]+ )?at most (.*)$`)
	nothing   = regexp.MustCompile(`^(?:0|no|none|nothing|neither)(?:$|[ ,:])|, not both$|^one of the two$`)
	instead   = regexp.MustCompile(`^no rule and a (\w+) of (at (?:least|most) .*)$`)
	lacking   = regexp.MustCompile(`^(\d+) more of (.+)$`)
	described = regexp.MustCompile(`"(\w+)" with (\d+) decimals`)
	between   = regexp.MustCompile(`^(\d+) [a-z]+, one between each two`)
	suchAs    = regexp.MustCompile(`such as x (.*?) to (.*?), y (.*?) to (.*)$`)
	inside    = regexp.MustCompile(`^a place above (\S+) and below (.*)$`)
	beside    = regexp.MustCompile(`such as (\w+) and (\w+) with an offset of (.*?) and (.*?), or `)
	called    = regexp.MustCompile(`^an? [a-z]+ ("(?:[^"\\]|\\.)*")`)
	placesAt  = regexp.MustCompile(`^[a-z]+s at (\d[^;]*)`)
	choices   = regexp.MustCompile(`, or |, | or `)
)

// obey sets a field as the text of a violation wants it, and reports whether it
// says that.
func obey(f reflect.Value, v check.Violation, offers []any) bool {
	want := v.Want
	switch {
	case instead.MatchString(want): // in the field beside it
		f.SetZero()
		return true
	case nothing.MatchString(want):
		f.SetZero()
		if f.Type() == reflect.TypeFor[units.Length]() && strings.HasPrefix(want, "none") {
			f.SetInt(int64(units.None)) // a default may stand for 0
		}
		return true
	case f.Kind() == reflect.Array:
		return put(f, want)
	case f.Kind() == reflect.Slice && v.Code == check.Missing:
		return add(f, want, offers)
	case f.Kind() == reflect.Slice:
		return shorten(f, want) || more(f, want)
	case f.Kind() == reflect.Struct && !isSize(f):
		return v.Code == check.Missing && fillIn(f) || move(f, want) || text(f, want) || currency(f, want)
	case f.Kind() == reflect.String:
		return call(f, v, offers)
	case f.Type() == reflect.TypeFor[units.Ruler]():
		return measureOn(f, want)
	case f.Kind() == reflect.Uint8:
		return choose(f, want)
	case isSize(f):
		return give(f, want)
	case f.Kind() == reflect.Int, f.Kind() == reflect.Int64:
		return number(f, want)
	case f.Kind() == reflect.Bool: // there is but one other
		f.SetBool(!f.Bool())
		return true
	case f.Kind() == reflect.Interface:
		return strings.HasPrefix(want, "one of the ") && offered(f, offers)
	}
	return false
}

func isSize(f reflect.Value) bool { return f.Type() == reflect.TypeFor[units.Size]() }

// add adds the first of the offers that is an element of a list; what is asked for
// by its name gets that.
func add(f reflect.Value, want string, offers []any) bool {
	e := reflect.New(f.Type().Elem()).Elem()
	if !offered(e, offers) {
		return false
	}
	if m := called.FindStringSubmatch(want); m != nil && e.Kind() == reflect.Struct {
		if name := e.FieldByName("Name"); name.IsValid() && name.Kind() == reflect.String {
			text, err := strconv.Unquote(m[1])
			if err != nil {
				return false
			}
			name.SetString(text)
		}
	}
	f.Set(reflect.Append(f, e))
	return true
}

// more adds to the counts of a list what is lacking of each size.
func more(f reflect.Value, want string) bool {
	done := false
	want, _, _ = strings.Cut(want, ", ")
	for part := range strings.SplitSeq(want, " and ") {
		m := lacking.FindStringSubmatch(part)
		if m == nil {
			return false
		}
		n, ok := leading(m[1])
		size, err := units.ParseSize(m[2])
		for i := range f.Len() {
			count, of := f.Index(i).FieldByName("Count"), f.Index(i).FieldByName("Size")
			if ok && err == nil && count.IsValid() && of.Interface() == size {
				count.SetInt(count.Int() + n)
				done = true
				break
			}
		}
	}
	return done
}

// text reads a value that has a text of its own.
func text(f reflect.Value, want string) bool {
	u, ok := f.Addr().Interface().(encoding.TextUnmarshaler)
	m := atMost.FindStringSubmatch(want)
	return ok && m != nil && u.UnmarshalText([]byte(m[1])) == nil
}

// put sets places that are listed.
func put(f reflect.Value, want string) bool {
	m := placesAt.FindStringSubmatch(want)
	if m == nil {
		return false
	}
	f.SetZero()
	for i, place := range strings.Split(strings.ReplaceAll(m[1], " and ", ", "), ", ") {
		l, ok := measure(f.Type().Elem(), place)
		if !ok || i >= f.Len() {
			return false
		}
		f.Index(i).SetInt(l)
	}
	return true
}

// currency reads a currency that is described.
func currency(f reflect.Value, want string) bool {
	code, decimals := f.FieldByName("Code"), f.FieldByName("Decimals")
	if !code.IsValid() || !decimals.IsValid() {
		return false
	}
	if m := described.FindStringSubmatch(want); m != nil {
		n, ok := leading(m[2])
		code.SetString(m[1])
		decimals.SetUint(uint64(n))
		return ok
	}
	code.SetString("XYZ")
	decimals.SetUint(2)
	return strings.HasPrefix(want, "three capital letters")
}

// move brings an extent or an area within bounds; what is left of none of it
// then becomes all of them.
func move(f reflect.Value, want string) bool {
	if m := span.FindStringSubmatch(want); m != nil && f.FieldByName("From").IsValid() {
		low, ok := measure(reflect.TypeFor[units.Length](), m[1])
		high, ok2 := measure(reflect.TypeFor[units.Length](), m[2])
		from, to := f.FieldByName("From"), f.FieldByName("To")
		from.SetInt(min(max(from.Int(), low), high))
		if to.SetInt(min(max(to.Int(), low), high)); from.Int() >= to.Int() {
			from.SetInt(low)
			to.SetInt(high)
		}
		return ok && ok2
	}
	if m := beside.FindStringSubmatch(want); m != nil {
		return moveBeside(f, m)
	}
	r, ok := f.Interface().(units.Rect)
	if !ok || !strings.HasPrefix(want, "an area") {
		return false
	}
	if m := suchAs.FindStringSubmatch(want); m != nil {
		for i, side := range []*units.Length{&r.Min.X, &r.Max.X, &r.Min.Y, &r.Max.Y} {
			l, ok := measure(reflect.TypeFor[units.Length](), m[1+i])
			if *side = units.Length(l); !ok {
				return false
			}
		}
	} else if _, size, on := strings.Cut(want, "on the blank of "); on {
		s, err := units.ParseSize(size)
		if err != nil {
			return false
		}
		r.Min = units.Point{X: r.Min.X.Clamp(0, s.W), Y: r.Min.Y.Clamp(0, s.H)}
		r.Max = units.Point{X: r.Max.X.Clamp(0, s.W), Y: r.Max.Y.Clamp(0, s.H)}
		if r.Empty() {
			r = units.RectAt(units.Point{}, s)
		}
	} else if r.Empty() {
		r = units.RectAt(units.Point{}, units.Size{W: units.Millimetre, H: units.Millimetre})
	}
	f.Set(reflect.ValueOf(r))
	return true
}

// moveBeside gives a place the one that is named: from an edge on either axis, and on
// none of the lines of others.
func moveBeside(f reflect.Value, m []string) bool {
	across, along, offset := f.FieldByName("Across"), f.FieldByName("Along"), f.FieldByName("Offset")
	if !across.IsValid() || !along.IsValid() || !offset.IsValid() {
		return false
	}
	f.SetZero()
	x, ok := measure(reflect.TypeFor[units.Length](), m[3])
	y, ok2 := measure(reflect.TypeFor[units.Length](), m[4])
	offset.Set(reflect.ValueOf(units.Point{X: units.Length(x), Y: units.Length(y)}))
	return ok && ok2 && choose(across, m[1]) && choose(along, m[2])
}

// fillIn gives what is missing a size, or else its first length.
func fillIn(f reflect.Value) bool {
	for i := range f.NumField() {
		if f.Field(i).Type() == reflect.TypeFor[units.Size]() {
			return give(f.Field(i), "a size")
		}
	}
	for i := range f.NumField() {
		if f.Field(i).Type() == reflect.TypeFor[units.Length]() {
			f.Field(i).SetInt(int64(20 * units.Millimetre))
			return true
		}
	}
	return false
}

// offered sets a field to the first of the offers that it takes.
func offered(f reflect.Value, offers []any) bool {
	for _, o := range offers {
		if v := reflect.ValueOf(o); v.Type().AssignableTo(f.Type()) {
			f.Set(v)
			return true
		}
	}
	return false
}

// Names are those of the elements of a list, in order: an offer where a text asks
// for the name of one before another.
type Names []string

// call sets a name.
func call(f reflect.Value, v check.Violation, offers []any) bool {
	want := v.Want
	switch {
	case strings.Contains(want, "name of a fitting before"):
		return earlier(f, v.Path, offers)
	case strings.Contains(want, "name of one"):
		return offered(f, offers)
	case strings.Contains(want, "name of another"), strings.Contains(want, "name of a fitting"): // the last of them
		slices.Reverse(offers)
		defer slices.Reverse(offers)
		return offered(f, offers)
	case strings.HasPrefix(want, "one of "):
		first, _, _ := strings.Cut(strings.TrimPrefix(want, "one of "), ", ")
		f.SetString(first)
	case strings.HasPrefix(want, "a name"):
		f.SetString("a name of its own")
	default:
		return false
	}
	return true
}

// earlier sets a name to the last there is before the element of a path.
func earlier(f reflect.Value, path string, offers []any) bool {
	_, from, _ := strings.Cut(path, "[")
	at, ok := leading(from)
	for _, o := range offers {
		names, is := o.(Names)
		for i, name := range names {
			if is && ok && int64(i) < at && name != "" {
				f.SetString(name)
			}
		}
	}
	return ok
}

// measureOn sets a ruler: any, or a finer one.
func measureOn(f reflect.Value, want string) bool {
	r, err := units.Sixteenths, error(nil)
	if strings.HasPrefix(want, "a finer ruler") {
		r, err = units.NewRuler(units.Nanometre, units.MetricDecimal)
	}
	f.SetInt(int64(r))
	return err == nil && strings.Contains(want, "ruler")
}

// shorten cuts a list to the number that a text allows, or adds the sheet that
// is wanted to a list of them.
func shorten(f reflect.Value, want string) bool {
	if sheet := f.Type().Elem(); strings.HasPrefix(want, "a sheet of at least") && sheet.Kind() == reflect.Struct {
		e := reflect.New(sheet).Elem()
		if f.Len() > 0 {
			e.Set(f.Index(0))
		}
		size := e.FieldByName("Size")
		ok := size.IsValid() && give(size, want)
		if trim := e.FieldByName("Trim"); trim.IsValid() && strings.Contains(want, "without trim") {
			trim.SetZero()
		}
		if grain := e.FieldByName("Grain"); ok && grain.IsValid() && strings.Contains(want, "grain along the height") {
			ok = choose(grain, "along the height")
		}
		f.Set(reflect.Append(f, e))
		return ok
	}
	if m := between.FindStringSubmatch(want); m != nil {
		n, ok := leading(m[1])
		for ok && int64(f.Len()) < n {
			f.Set(reflect.Append(f, reflect.Zero(f.Type().Elem())))
		}
		f.SetLen(int(n))
		return ok
	}
	if strings.HasPrefix(want, "only the first of them") {
		f.SetLen(min(f.Len(), 1))
		return true
	}
	m := atMost.FindStringSubmatch(want)
	if m == nil {
		return false
	}
	n, ok := leading(strings.TrimPrefix(m[1], "the first "))
	if !ok || n > int64(f.Len()) {
		return false
	}
	f.SetLen(int(n))
	return true
}

// choose sets an enumeration to the first of the words that are offered; where
// constants are named, to the first there is.
func choose(f reflect.Value, want string) bool {
	if strings.HasPrefix(want, "one of the ") && strings.HasSuffix(want, " constants") {
		f.SetUint(0)
		return true
	}
	if quoted := regexp.MustCompile(`^"([^"]*)"`).FindStringSubmatch(want); quoted != nil {
		u, ok := f.Addr().Interface().(encoding.TextUnmarshaler)
		return ok && u.UnmarshalText([]byte(quoted[1])) == nil
	}
	for _, word := range choices.Split(strings.TrimPrefix(want, "one of "), -1) {
		if u, ok := f.Addr().Interface().(encoding.TextUnmarshaler); ok && u.UnmarshalText([]byte(word)) == nil {
			return true
		}
	}
	return false
}

// give sets a size: the one that is named, or any where one is missing.
func give(f reflect.Value, want string) bool {
	if m := atLeast.FindStringSubmatch(want); m != nil {
		for text := m[1]; text != ""; text = text[:max(strings.LastIndexByte(text, ' '), 0)] {
			if s, err := units.ParseSize(strings.TrimRight(text, ",")); err == nil {
				f.Set(reflect.ValueOf(s))
				return true
			}
		}
	}
	if strings.HasPrefix(want, "a size") || strings.HasPrefix(want, "the size") {
		f.Set(reflect.ValueOf(units.Size{W: 60 * units.Millimetre, H: 60 * units.Millimetre}))
		return true
	}
	return false
}

// number sets a number or a length to the nearest that a text allows.
func number(f reflect.Value, want string) bool {
	read := func(text string) (int64, bool) { return leading(text) }
	if !isCount(f.Type()) {
		read = func(text string) (int64, bool) { return measure(f.Type(), text) }
	}
	if _, bounds, ok := strings.Cut(want, ", or from "); ok { // what is best comes first
		want = bounds
	}
	if m := span.FindStringSubmatch(want); m != nil {
		low, ok := read(m[1])
		high, ok2 := read(m[2])
		if ok && ok2 {
			f.SetInt(min(max(f.Int(), low), high))
			return true
		}
	}
	if m := inside.FindStringSubmatch(want); m != nil {
		low, ok := read(m[1])
		high, ok2 := read(m[2])
		f.SetInt(low + (high-low)/2)
		return ok && ok2
	}
	for _, form := range []*regexp.Regexp{at, atLeast, atMost} {
		if m := form.FindStringSubmatch(want); m != nil {
			if n, ok := read(m[1]); ok {
				f.SetInt(n)
				return true
			}
		}
	}
	if n, ok := read(want); ok && !strings.HasPrefix(want, "a") {
		f.SetInt(n)
		return true
	}
	return false
}

func isCount(t reflect.Type) bool {
	return t.PkgPath() == "" // int, int64
}

// leading reads the whole number at the beginning of a text.
func leading(text string) (int64, bool) {
	end := 0
	for end < len(text) && (text[end] >= '0' && text[end] <= '9' || text[end] == ',' && end > 0) {
		end++
	}
	n, err := strconv.ParseInt(strings.ReplaceAll(strings.TrimRight(text[:end], ","), ",", ""), 10, 64)
	return n, err == nil
}

// measure reads the longest beginning of a text that its type reads.
func measure(t reflect.Type, text string) (int64, bool) {
	if text == "0" {
		return 0, true
	}
	for ; text != ""; text = text[:max(strings.LastIndexByte(text, ' '), 0)] {
		v := reflect.New(t)
		u, ok := v.Interface().(encoding.TextUnmarshaler)
		if !ok {
			return 0, false
		}
		if u.UnmarshalText([]byte(strings.TrimRight(text, ",:;"))) == nil {
			return v.Elem().Int(), true
		}
	}
	return 0, false
}
