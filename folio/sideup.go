package folio

import "boardwrap.example/pocket"

// designed works a kind out in the paper of the fitting, cut with that side up
// which brings the wanted one out where it is seen: folds turn a paper over, so
// that for some kinds it is the other one.
func (f *fitter) designed(kind pocket.Kind, paper pocket.Paper) (*pocket.Design, error) {
	f.paper = paper
	if d := f.b.known(f, kind); d != nil {
		return d, nil
	}
	d, err := kind.Design(paper, f.ruler())
	if err != nil {
		return nil, err
	}
	d = d.Showing(f.up)
	return &d, nil
}

// owned returns the folded kind as a plain value, so that nothing its owner
// writes later changes it.
func (d Folded) owned() Kind {
	if plain, err := pocket.Accept(d.Kind); err == nil {
		d.Kind = plain
	}
	return d
}

// An owner is a kind that holds something which its user may give by a pointer.
type owner interface{ owned() Kind }
