package folio

// Again is [Build] of another Spec, sooner where p holds the same folded
// fittings: what was worked out for them is used again. The plan is the same as
// that of Build. On a nil plan it is Build.
func (p *Plan) Again(s Spec) (*Plan, error) { return build(&s, p) }
