package layout_test

import (
	"context"
	"encoding/binary"
	"errors"
	"math/rand"
	"testing"

	"boardwrap.example/folio"
	"boardwrap.example/folio/layout"
	"boardwrap.example/folio/rule"
	"boardwrap.example/folio/stock"
	"boardwrap.example/units"
	"boardwrap.example/units/check"
	"boardwrap.example/units/money"
)

// A reader takes numbers off a string of bytes; past its end all are zero.
type reader []byte

func (r *reader) byte() int {
	if len(*r) == 0 {
		return 0
	}
	b := (*r)[0]
	*r = (*r)[1:]
	return int(b)
}

// pick is below n, or at times any byte.
func (r *reader) pick(n int) int {
	b := r.byte()
	if b == 255 {
		return r.byte()
	}
	return b % n
}

// length is mostly a sane number of eighths, at times any number at all.
func (r *reader) length() units.Length {
	var buf [8]byte
	switch k := r.byte(); {
	case k < 251:
		l, _ := (units.Inch / 8).Times(int64(k) + 1)
		return l
	case k < 254:
		return units.Length(1+r.byte()%160) * units.Metre / 16
	case k < 255:
		return units.None
	}
	for i := range buf {
		buf[i] = byte(r.byte())
	}
	l, _ := units.Of(int64(binary.LittleEndian.Uint64(buf[:])), units.Nanometre)
	return l
}

func (r *reader) count() int {
	switch k := r.byte(); {
	case k < 240:
		return k % 20
	case k < 254:
		return k * r.byte()
	default:
		return int(int32(k<<24 | r.byte()<<16 | r.byte()))
	}
}

func (r *reader) money() money.Amount {
	m := money.Amount{Minor: int64(r.count())}
	switch r.byte() % 64 {
	case 0:
		m.Currency = money.Currency{Code: "eur", Decimals: uint8(r.byte())}
	case 1:
		m = money.Amount{}
	default:
		m.Currency = money.Currency{Code: "EUR", Decimals: 2}
	}
	return m
}

func (r *reader) job(plans []*folio.Plan) layout.Job {
	names := []string{"marbled paper", "cream paper", "chipboard", "card", "", "foil"}
	job := layout.Job{Cutter: layout.Cutter{Kerf: r.length() / 64, LongestCut: r.length() * 2}, Keep: layout.Keep{Short: r.length(), Long: r.length()}}
	job.Ruler = units.Ruler(r.length())
	if r.byte() < 250 {
		job.Ruler = units.Sixteenths
	}
	for range r.byte() % 4 {
		job.Folios = append(job.Folios, layout.Folio{Plan: plans[min(r.pick(2), 2)], Copies: r.count()})
	}
	for range r.byte() % 6 {
		job.Pieces = append(job.Pieces, layout.LoosePiece{Name: "piece", Material: names[min(r.pick(4), 5)], Size: units.Size{W: r.length(), H: r.length()},
			Quantity: r.count(), Grain: stock.GrainRule(r.pick(2)), Turn: layout.TurnRule(r.pick(3))})
	}
	for _, name := range names[:4+r.byte()%3] {
		m := layout.Material{Name: name}
		if r.byte()%8 == 0 {
			m.Cutter = layout.Cutter{Kerf: r.length() / 64, LongestCut: r.length()}
		}
		for range 1 + r.byte()%3 {
			m.Sheets = append(m.Sheets, layout.SheetKind{Size: units.Size{W: r.length(), H: r.length()}, Grain: stock.SheetGrain(r.pick(3)),
				Count: max(r.count()-1, -1-r.byte()/255), Price: r.money(), Offcut: r.byte()%3 == 0, Trim: (r.length() - units.Inch/8) / 128})
		}
		job.Materials = append(job.Materials, m)
	}
	if r.byte()%2 == 0 {
		job.Except = names[:r.byte()%4]
	}
	return job
}

func FuzzLay(f *testing.F) {
	spec := keepsakeSpec()
	plain := build(f, spec)
	spec.Covering.OneWay, spec.Quarter.Rule = true, rule.QuarterAlways
	plans := []*folio.Plan{plain, build(f, spec), nil}
	r := rand.New(rand.NewSource(5))
	for range 40 {
		seed := make([]byte, 40+r.Intn(400))
		r.Read(seed)
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		in := reader(data)
		job := in.job(plans)
		l, err := layout.Lay(context.Background(), job, layout.Budget{Steps: 20_000})
		var bad *check.Error
		if err != nil && (!errors.As(err, &bad) || bad.Len() == 0 || bad.Error() == "") {
			t.Fatalf("an empty error: %v", err)
		}
		if l == nil && err == nil {
			t.Fatal("neither layout nor error")
		}
		if l == nil {
			return
		}
		mustHold(t, job, l)
		_ = dump(l)
		total := 0
		for w := range l.Pieces() {
			total += w.Quantity()
		}
		if total > 2000 {
			return
		}
		small := layout.Budget{Steps: 20_000}
		if y, err := layout.HowMany(context.Background(), job, in.byte()%4, small); err == nil && y.Copies() < 0 {
			t.Errorf("%+v", y)
		}
		_, _ = layout.OneMore(context.Background(), job, in.byte()%4, small)
		list, _, _ := layout.Savings(context.Background(), job, layout.Tolerance{Width: in.length(), Height: in.length(), Margin: true, Panels: true, Quarter: true}, small)
		for _, s := range list {
			if s.Sheets() < 1 {
				t.Errorf("a saving of %d", s.Sheets())
			}
		}
	})
}
