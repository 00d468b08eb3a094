package main

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"

	"boardwrap.example/folio/wire"
)

// TestMain is the program itself where a test starts this binary as one.
func TestMain(m *testing.M) {
	if os.Getenv("SIZES_IS_THE_PROGRAM") != "" {
		main()
	}
	os.Exit(m.Run())
}

// sizes runs the program.
func sizes(in string, args ...string) (out, bad string, status int) {
	var o, b strings.Builder
	status = run(args, strings.NewReader(in), &o, &b, nil)
	return o.String(), b.String(), status
}

const (
	bow    = `{"version":1,"spec":{"title":"Bow pair","cover":"6 x 8 in","spine":{"width":"5/8 in"}}}`
	stern  = `{"version":1,"spec":{"title":"Stern pair","cover":"150 x 210 mm","spine":{"width":"18 mm"},"rulers":{"main":"1 mm"}}}`
	nobody = `{"version":1,"spec":{"title":"Nobody","cover":"6 x 8 in"}}`
)

// The sizes of the README's folio (6 x 8 in covers, spine of 5/8 in): two gaps of
// 1/8 in make an open width of 12 7/8 in, a margin of 1 in on either side a wrap
// of 14 7/8 x 10 in; the liner stays 1/8 in inside the case, 12 5/8 x 7 3/4 in.
func TestPieces(t *testing.T) {
	out, bad, status := sizes(bow+"\n"+nobody+"\n"+bow+"\n", "-csv", "pieces")
	want := strings.Join([]string{
		"line,title,copies,name,part,stock,fitting,quantity,width,height,width mm,height mm",
		"1,Bow pair,,cover board,case,board,,2,6 in,8 in,152.4,203.2",
		"1,Bow pair,,spine board,case,board,,1,5/8 in,8 in,15.875,203.2",
		"1,Bow pair,,wrap,wrap,covering,,1,14 7/8 in,10 in,377.825,254",
		"1,Bow pair,,liner,liner,liner,,1,12 5/8 in,7 3/4 in,320.675,196.85",
		"3,Bow pair,,cover board,case,board,,2,6 in,8 in,152.4,203.2",
		"3,Bow pair,,spine board,case,board,,1,5/8 in,8 in,15.875,203.2",
		"3,Bow pair,,wrap,wrap,covering,,1,14 7/8 in,10 in,377.825,254",
		"3,Bow pair,,liner,liner,liner,,1,12 5/8 in,7 3/4 in,320.675,196.85",
		"",
	}, "\n")
	if d := cmp.Diff(want, out); d != "" {
		t.Error(d)
	}
	if !strings.Contains(bad, `"line":2`) || !strings.Contains(bad, `"path":"spine"`) || strings.Count(bad, "\n") != 1 || status != oneFailed {
		t.Errorf("status %d, %s", status, bad)
	}
}

// Only what is asked comes out, and documents may be separated in any way.
func TestFields(t *testing.T) {
	const fields = "title, pieces.name,pieces.size.w.text"
	want := `{"version":1,"plan":{"title":"Bow pair","pieces":[{"name":"cover board","size":{"w":{"text":"6 in"}}},{"name":"spine board","size":{"w":{"text":"5/8 in"}}},{"name":"wrap","size":{"w":{"text":"14 7/8 in"}}},{"name":"liner","size":{"w":{"text":"12 5/8 in"}}}]}}` + "\n"
	broad := "\n\n" + strings.ReplaceAll(strings.ReplaceAll(bow, ",", "\n,\n"), "{", "\n{ ") + "\n"
	for _, in := range []string{bow, bow + "\n", "\r\n \t" + bow + "\r\n", broad} {
		if out, bad, status := sizes(in, "-fields", fields); out != want || status != allDone || bad != "" {
			t.Errorf("%q: %d, %s, %s", in, status, out, bad)
		}
	}
	out, _, status := sizes(bow+bow+" "+bow+"\n"+broad+bow, "-fields", fields)
	if out != strings.Repeat(want, 5) || status != allDone {
		t.Errorf("%d: %s", status, out)
	}
	if out, _, _ = sizes(bow, "-pretty", "-fields", "title"); out != "{\n  \"version\": 1,\n  \"plan\": {\n    \"title\": \"Bow pair\"\n  }\n}\n" {
		t.Errorf("pretty: %s", out)
	}
}

// Without -fields it is the whole document of the plan.
func TestWhole(t *testing.T) {
	out, _, status := sizes(stern)
	var doc struct {
		Plan struct {
			Notation string
			Steps    []struct{ Text string }
			Boards   []any
		}
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil || status != allDone || len(doc.Plan.Boards) != 3 || len(doc.Plan.Steps) < 5 || doc.Plan.Steps[0].Text == "" {
		t.Errorf("%v, %d: %.300s", err, status, out)
	}
}

// answers are the lines of the output: the title of each plan, the line of each
// error.
func answers(t *testing.T, out string) []string {
	t.Helper()
	var all []string
	for line := range strings.Lines(out) {
		var doc struct {
			Line  int
			Plan  *struct{ Title string }
			Error *struct{ Message string }
		}
		if err := json.Unmarshal([]byte(line), &doc); err != nil {
			t.Fatalf("%v in %s", err, line)
		}
		switch {
		case doc.Plan != nil && doc.Error == nil:
			all = append(all, doc.Plan.Title)
		case doc.Error != nil && doc.Error.Message != "":
			all = append(all, "line "+strconv.Itoa(doc.Line))
		}
	}
	return all
}

// A broken line among good ones spoils none of them, wherever it is broken: cut
// short at every byte, with a byte too many, and with others in its place.
func TestBrokenLine(t *testing.T) {
	var broken []string
	for i := 1; i < len(bow); i++ {
		broken = append(broken, bow[:i])
	}
	broken = append(broken, bow+"}", bow+" x", "x", "}", "[", `"`, "null", "7", "{}", "[{", `{"a":"\`, strings.Repeat("{", 300), strings.Repeat(`{"a":[`, 300), "\x00", "\xff\xfe")
	for _, b := range broken {
		out, _, status := sizes(bow+"\n"+b+"\n"+stern+"\n"+bow+"\n", "-fields", "title")
		want := []string{"Bow pair", "line 2", "Stern pair", "Bow pair"}
		if strings.HasPrefix(b, bow) { // what was good before the break is
			want = []string{"Bow pair", "Bow pair", "line 2", "Stern pair", "Bow pair"}
		}
		if d := cmp.Diff(want, answers(t, out)); d != "" || status != oneFailed {
			t.Errorf("%q: %d, %s", b, status, d)
		}
	}
}

// Lines of faults are those of the stream, also within a document of many lines.
func TestLines(t *testing.T) {
	in := bow + "\n\n{\"version\":1,\n\"spec\":{\n\"cover\":6\n}}\n"
	for first, want := range map[string][2]string{"1": {`"line":3,"error"`, `"line":5`}, "100": {`"line":102,"error"`, `"line":104`}} {
		out, _, _ := sizes(in, "-line", first, "-fields", "title")
		if !strings.Contains(out, want[0]) || !strings.Contains(out, want[1]) || !strings.Contains(out, `"pointer":"/spec/cover"`) {
			t.Errorf("from line %s: %s", first, out)
		}
	}
}

// What is too long is refused for that, and what follows is read.
func TestTooLong(t *testing.T) {
	long := `{"version":1,"spec":{"title":"` + strings.Repeat("x", 3*wire.MostBytes) + `"}}`
	out, _, status := sizes(long+"\n"+bow+"\n"+strings.Repeat("x", 2*wire.MostBytes)+"\n"+bow, "-fields", "title")
	if d := cmp.Diff([]string{"line 1", "Bow pair", "line 3", "Bow pair"}, answers(t, out)); d != "" || status != oneFailed || strings.Count(out, "too-large") < 2 {
		t.Errorf("%d, %s", status, d)
	}
}

// many is a stream of n crews, each with a size of its own, every 97th broken.
func many(n int) string {
	var b strings.Builder
	for i := range n {
		if i%97 == 96 {
			fmt.Fprintf(&b, "{\"version\":1,\"spec\":{\"title\":\"Crew %d\",\"cover\":[}\n", i)
			continue
		}
		fmt.Fprintf(&b, "{\"version\":1,\"spec\":{\"title\":\"Crew %d\",\"cover\":\"%d x %d mm\",\"spine\":{\"width\":\"%d mm\"}}}\n", i, 120+i%80, 160+i%90, 10+i%9)
	}
	return b.String()
}

// What goes out stands in the order of what came in.
func TestOrder(t *testing.T) {
	const n = 5000
	out, _, status := sizes(many(n), "-fields", "title")
	got := answers(t, out)
	if len(got) != n || status != oneFailed {
		t.Fatalf("%d of %d, %d", len(got), n, status)
	}
	for i, g := range got {
		want := "Crew " + strconv.Itoa(i)
		if i%97 == 96 {
			want = "line " + strconv.Itoa(i+1)
		}
		if g != want {
			t.Fatalf("%q in place of %q", g, want)
		}
	}
}

// Parts that were worked on apart are, put together, what the whole is.
func TestShards(t *testing.T) {
	const n, cut = 600, 251
	in := many(n)
	lines := strings.SplitAfter(in, "\n")
	for _, args := range [][]string{{"-fields", "title,pieces.size"}, {"-csv", "pieces"}} {
		whole, wholeBad, _ := sizes(in, args...)
		one, oneBad, _ := sizes(strings.Join(lines[:cut], ""), args...)
		two, twoBad, _ := sizes(strings.Join(lines[cut:], ""), append(args, "-line", strconv.Itoa(cut+1))...)
		if args[0] == "-csv" {
			two = strings.TrimPrefix(two, pieceHeader)
		}
		if d := cmp.Diff(whole, one+two); d != "" {
			t.Error(d)
		}
		if d := cmp.Diff(wholeBad, oneBad+twoBad); d != "" {
			t.Error(d)
		}
	}
}

// A spreadsheet is enough, and says the same as the documents.
func TestTable(t *testing.T) {
	const table = "\xef\xbb\xbftitle,cover,spine.width,Copies,rulers.main,fittings[0].name,fittings[0].kind.type,fittings[0].kind.picture.size\r\n" +
		"Bow pair,6 x 8 in,5/8 in,3,,photo,mat,4 x 6 in\r\n" +
		"\"Stern, pair\",150 x 210 mm,18 mm,,1 mm,,,\r\n" +
		"\r\n" +
		"Broken,150,18,many,1 mm,,,\r\n" +
		"\"Quote,6 x 8 in,5/8 in,1,,,,\r\n" +
		"Short,6 x 8 in\r\n" +
		"Third,6 x 8 in,1 in,12,,,,\r\n"
	out, _, status := sizes(table, "-in", "csv", "-fields", "title,fittings.name")
	if d := cmp.Diff([]string{"Bow pair", "Stern, pair", "line 5", "line 6", "line 7", "Third"}, answers(t, out)); d != "" || status != oneFailed {
		t.Errorf("%d, %s\n%s", status, d, out)
	}
	lines := strings.Split(out, "\n")
	if lines[0] != `{"copies":3,"version":1,"plan":{"title":"Bow pair","fittings":[{"name":"photo"}]}}` || strings.Contains(lines[1], "copies") {
		t.Errorf("%s\n%s", lines[0], lines[1])
	}
	for _, want := range []string{`"pointer":"/spec/cover","path":"cover","line":5,"column":2`, `"pointer":"/spec/spine/width","path":"spine.width"`, "copies: got \\\"many\\\""} {
		if !strings.Contains(lines[2], want) {
			t.Errorf("%s is missing in %s", want, lines[2])
		}
	}
	// What a spreadsheet breaks inside a cell goes over two lines, and both are refused.
	if !strings.Contains(lines[3], "a cell in quotation marks does not end on its line") {
		t.Errorf("%s", lines[3])
	}
	pieces, _, _ := sizes(table, "-in", "csv", "-csv", "pieces")
	rows, err := csv.NewReader(strings.NewReader(pieces)).ReadAll()
	if err != nil || len(rows) < 12 || rows[1][2] != "3" || rows[len(rows)-1][2] != "12" || rows[len(rows)-1][0] != "8" {
		t.Errorf("%v: %s", err, pieces)
	}
	pretty, _, _ := sizes(table, "-in", "csv", "-fields", "title", "-pretty")
	if !strings.HasPrefix(pretty, "{\n  \"copies\": 3,\n  \"version\": 1,\n") {
		t.Errorf("%.80s", pretty)
	}
}

// Copies stand before plans of every length, also where buffers are used again.
func TestManyCopies(t *testing.T) {
	var in strings.Builder
	in.WriteString("copies,title,cover,spine.width\n")
	for i := range 500 {
		fmt.Fprintf(&in, "%d,%s,6 x 8 in,1 in\n", i+1, strings.Repeat("x", i%40+1))
	}
	out, _, status := sizes(in.String(), "-in", "csv", "-fields", "title")
	n := 0
	for line := range strings.Lines(out) {
		if want := fmt.Sprintf("{\"copies\":%d,\"version\":1,\"plan\":{\"title\":\"%s\"}}\n", n+1, strings.Repeat("x", n%40+1)); line != want {
			t.Fatalf("%s; want %s", line, want)
		}
		n++
	}
	if n != 500 || status != allDone {
		t.Errorf("%d lines, %d", n, status)
	}
}

func TestMisuse(t *testing.T) {
	for _, c := range []struct {
		in   string
		args []string
		want string
	}{
		{bow, []string{"crews.jsonl"}, "left over"},
		{bow, []string{"-nothing"}, "not defined"},
		{bow, []string{"-in", "xml"}, "want json or csv"},
		{bow, []string{"-csv", "boards"}, "want pieces"},
		{bow, []string{"-fields", "peices"}, `no member "peices"; want one of title, form`},
		{bow, []string{"-fields", "pieces.size.w.text.mm"}, "taken whole"},
		{bow, []string{"-fields", "title", "-csv", "pieces"}, "without -csv"},
		{"", []string{"-schema", "folio"}, "want one of batch, closing, costs, error"},
		{bow, []string{"-line", "0"}, "want 1 or more"},
		{"", []string{"-in", "csv"}, "no header"},
		{"cover,wings,cover,spine,fittings[x].name\n", []string{"-in", "csv"}, `column 2, "wings": there is no field`},
	} {
		out, bad, status := sizes(c.in, c.args...)
		if out != "" || status != misuse || !strings.Contains(bad, c.want) {
			t.Errorf("%q: %d, %s, %s", c.args, status, out, bad)
		}
	}
	if out, bad, status := sizes("", "-help"); status != allDone || out != "" || !strings.Contains(bad, "-fields") {
		t.Errorf("help: %d %s", status, bad)
	}
	for name, want := range map[string][]byte{"spec": wire.SpecSchema(), "plan": wire.PlanSchema(), "error": wire.ErrorSchema(), "costs": wire.CostsSchema(),
		"request": wire.RequestSchema(), "proposals": wire.ProposalsSchema(), "batch": wire.BatchSchema(), "layout": wire.LayoutSchema(),
		"closing": wire.ClosingSchema(), "holding": wire.HoldingSchema(), "posting": wire.PostingSchema()} {
		if out, _, status := sizes("", "-schema", name); status != allDone || out != string(want) {
			t.Errorf("the schema of a %s is another", name)
		}
	}
	if out, _, status := sizes(""); status != allDone || out != "" {
		t.Error("nothing in, something out")
	}
}

// closing takes so many bytes and is then closed.
type closing struct{ left int }

func (c *closing) Write(p []byte) (int, error) {
	if c.left -= len(p); c.left < 0 {
		return 0, syscall.EPIPE
	}
	return len(p), nil
}

// endless gives the same line for ever.
type endless struct {
	line string
	at   int
}

func (e *endless) Read(p []byte) (int, error) {
	n := copy(p, e.line[e.at:])
	e.at = (e.at + n) % len(e.line)
	return n, nil
}

type broken struct{}

func (broken) Read([]byte) (int, error)  { return 0, errors.New("the cable is out") }
func (broken) Write([]byte) (int, error) { return 0, errors.New("the disk is full") }

// When nobody reads on, the filter stops without a word, though more comes in;
// another failure is said.
func TestClosedPipe(t *testing.T) {
	var bad strings.Builder
	if status := run(nil, &endless{line: bow + "\n"}, &closing{1 << 18}, &bad, nil); status != allDone || bad.String() != "" {
		t.Errorf("%d, %s", status, &bad)
	}
	if status := run(nil, strings.NewReader(bow), broken{}, &bad, nil); status != oneFailed || !strings.Contains(bad.String(), "disk is full") {
		t.Errorf("%d, %s", status, &bad)
	}
	var out strings.Builder
	in := io.MultiReader(strings.NewReader(bow+"\n"), broken{})
	if status := run([]string{"-fields", "title"}, in, &out, &bad, nil); status != oneFailed || !strings.Contains(bad.String(), "cable is out") || !strings.Contains(out.String(), "Bow pair") {
		t.Errorf("%d, %s, %s", status, &out, &bad)
	}
}

// The same with a pipe of the system: the reader goes after the first line.
func TestRealPipe(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Skip("no executable to start:", err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), "SIZES_IS_THE_PROGRAM=1")
	cmd.Stdin = &endless{line: bow + "\n"}
	var bad bytes.Buffer
	cmd.Stderr = &bad
	pipe, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Skip("programs cannot be started:", err)
	}
	line, err := bufio.NewReader(pipe).ReadString('\n')
	if err != nil || !strings.Contains(line, "Bow pair") {
		t.Errorf("%v: %.80s", err, line)
	}
	if err := pipe.Close(); err != nil {
		t.Error(err)
	}
	_ = cmd.Wait() // by a signal or with a status, as the system has it
	if bad.Len() > 0 {
		t.Errorf("it says %s", &bad)
	}
}

// Somebody who types sees each answer before the next line is asked for.
func TestOneByOne(t *testing.T) {
	inRead, inWrite := io.Pipe()
	outRead, outWrite := io.Pipe()
	go func() {
		run([]string{"-fields", "title"}, inRead, outWrite, io.Discard, nil)
		_ = outWrite.Close()
	}()
	out := bufio.NewReader(outRead)
	for range 3 {
		if _, err := io.WriteString(inWrite, bow+"\n"); err != nil {
			t.Fatal(err)
		}
		if line, err := out.ReadString('\n'); err != nil || !strings.Contains(line, "Bow pair") {
			t.Fatalf("%v: %s", err, line)
		}
	}
	_ = inWrite.Close()
	if _, err := out.ReadString('\n'); !errors.Is(err, io.EOF) {
		t.Errorf("after the end: %v", err)
	}
}

// On a terminal one line tells how many are done.
func TestProgress(t *testing.T) {
	var shown strings.Builder
	if status := run([]string{"-fields", "title"}, strings.NewReader(many(90)), io.Discard, io.Discard, &shown); status != allDone {
		t.Fatal(status)
	}
	if text := shown.String(); !strings.HasPrefix(text, "\r1 done") || !strings.Contains(text, "\r90 done") || !strings.HasSuffix(text, "a second\n") {
		t.Errorf("%q", text)
	}
}

// A stream of plain folios: plans a second is the figure to look at.
func BenchmarkPlans(b *testing.B) {
	for _, c := range []struct {
		name string
		args []string
	}{
		{"whole", nil},
		{"fields", []string{"-fields", "title,pieces.name,pieces.size"}},
		{"pieces", []string{"-csv", "pieces"}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			if status := run(c.args, io.LimitReader(&endless{line: bow + "\n"}, int64(b.N*(len(bow)+1))), io.Discard, os.Stderr, nil); status != allDone {
				b.Fatal(status)
			}
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "plans/s")
		})
	}
}

// One row of cells by relation serves covers of any size: a mat with 1/2 in of the
// panel round it, the panel 1/8 in inside its board all round.
func TestRelationsInATable(t *testing.T) {
	out, bad, status := sizes(`cover,spine.width,fittings[0].kind.type,fittings[0].size.w.of,fittings[0].size.w.margin,fittings[0].size.h.of,fittings[0].size.h.less
6 x 8 in,5/8 in,mat,panel,1/2 in,panel,1 in
5 x 7 in,5/8 in,mat,panel,1/2 in,panel,1 in
5 x 7 in,5/8 in,mat,,1/2 in,panel,1 in
`, "-in", "csv", "-csv", "pieces")
	var mats []string
	for line := range strings.Lines(out) {
		if strings.Contains(line, ",mat,") {
			mats = append(mats, strings.TrimSpace(line))
		}
	}
	want := []string{"2,,,mat,mat,card,fittings[0],1,4 3/4 in,6 3/4 in,120.65,171.45", "3,,,mat,mat,card,fittings[0],1,3 3/4 in,5 3/4 in,95.25,146.05"}
	if d := cmp.Diff(want, mats); d != "" || status != oneFailed || !strings.Contains(bad, `"path":"fittings[0].size.w.of"`) {
		t.Errorf("status %d, %s\n%s", status, bad, d)
	}
}

// The column that is passed through takes whole numbers up to mostCopies, and says so
// of more.
func TestMostCopies(t *testing.T) {
	for n, most := range map[string]int{"1000000": allDone, "1000001": oneFailed, "10000000": oneFailed, "99999999999999999999": oneFailed} {
		out, _, status := sizes("cover,spine.width,copies\n6 x 8 in,1 in,"+n+"\n", "-in", "csv")
		if status != most || status != allDone && !strings.Contains(out, "a whole number from 1 to 1000000") {
			t.Errorf("%s copies: %d, %s", n, status, out)
		}
	}
	// Laid out, the minutes of a folio and the sheets of a kind have the same limit.
	for n, most := range map[string]int{"1000000": allDone, "1000001": oneFailed, "10000000": oneFailed, "99999999999999999999": oneFailed} {
		for name, row := range map[string]string{"minutes": n + ",,,\n", "sheet.count": ",,,\n,,,,board,20 x 30 in," + n + "\n"} {
			table := "cover,spine.width,copies,minutes,sheet.material,sheet.size,sheet.count\n6 x 8 in,1 in,1," + row
			out, bad, status := sizes(table, "-lay", "-in", "csv")
			if said := strings.Contains(out+bad, name+": got "); said != (most == oneFailed) || most == oneFailed && status != oneFailed {
				t.Errorf("%s, %s: %d, %.300s, %s", n, name, status, out, bad)
			}
		}
	}
}

// A row takes up to so many bytes, without the end of its line.
func TestMostBytesOfARow(t *testing.T) {
	for n, most := range map[int]bool{wire.MostBytes: true, wire.MostBytes + 1: false, 10 * wire.MostBytes: false} {
		row := "6 x 8 in,1 in,"
		out, bad, _ := sizes("cover,spine.width,title\n"+row+strings.Repeat("x", n-len(row))+"\n", "-in", "csv", "-fields", "form")
		if said := strings.Contains(out, "more than 1048576 bytes"); said == most {
			t.Errorf("%d bytes: %.300s, %.300s", n, out, bad)
		}
	}
}
