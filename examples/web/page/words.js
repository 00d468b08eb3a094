// @ts-check
// What the fields are called, in words of the trade, and which come first.

/** Labels where the member's own name would not do, by the end of the path that they
 * are for; what comes after a bar is the kind of what they are in. @type {Record<string, string>} */
const labels = {
	"spec.title": "What it is called",
	"spec.form": "Row of boards",
	"spec.cover": "One cover board, width x height",
	"spec.flapWidth": "Width of the flap",
	"spec.doorGap": "Gap between the doors",
	"spec.spine.width": "Width of the spine board",
	"spec.spine.contents": "or: thickness of the contents",
	"spec.spine.rule": "Spine from contents by",
	"spec.spine.stiffener": "Stiffener of a soft spine, from",
	"spec.block.page": "Page of the block, width x height",
	"spec.block.square": "Square: how far the covers stand past it",
	"spec.block.setback": "Boards start from its back at",
	"spec.block.thickness": "Thickness of the block",
	"spec.placing": "Boards laid out of place by",
	"spec.clearance": "Room round each fitting",
	"spec.grain": "Grain runs",
	"spec.groove": "Scored on the fold's",
	"spec.turning": "Turned in first",
	"spec.quarter": "Quarter style",
	"spec.row": "A row of boards of your own",
	"spec.stocks": "Further papers",
	"rulers.main": "Ruler",
	"rulers.board": "Ruler of boards",
	"rulers.gap": "Ruler of gaps",
	"rulers.wrap": "Ruler of the wrap",
	"rulers.liner": "Ruler of the liner",
	"rulers.fitting": "Ruler of fittings",
	"closing.ease": "Room left at the tightest place",
	"closing.underFlap": "Room under the flap",
	"adhesive.glue": "Glued all over, not taped",
	"adhesive.caliper": "Thickness of the tape or glue",
	"adhesive.tapeWidth": "Width of the tape",
	"hinge.angle": "Each hinge turns by, in degrees",
	"hinge.crease": "The covering bends",
	"hinge.offset": "How far from the board's edge it bends",
	"hinge.rule": "Width of the gaps by",
	"hinge.width": "or: width of the gaps",
	"lining.inset": "Liner's edge inside the cover's by",
	"lining.lap": "Edge strips under the liner by",
	"lining.rule": "Lined in",
	"magnets.diameter": "Diameter of a magnet",
	"magnets.thickness": "Thickness of a magnet",
	"magnets.pairs": "Pairs at an edge",
	"magnets.inset": "From the board's edge to its rim",
	"spec.margin": "What the wrap turns in",
	"spec.margin.rule": "Turned in by",
	"spec.margin.ideal": "or: as much as",
	"spec.margin.least": "Warned of below",
	"spec.margin.tolerated": "No wrap is cut below",
	"mitre.rule": "Corner cut off by",
	"mitre.distance": "or: so far from the board's corner",
	"quarter.rule": "Covered in two materials",
	"quarter.reach": "Spine strip goes on to each cover by",
	"quarter.lap": "Side papers lie over it by",
	"row.main": "Main panel",
	"boards.role": "What it is",
	"boards.rule": "Its width by",
	"boards.width": "or: its width",
	"boards.over": "Lies over",
	"joints.fold": "Folds as a",
	"batch.copies": "How many copies",
	"batch.currency": "Currency, as in USD",
	"batch.minutes": "Minutes of work on each",
	"others.copies": "How many copies",
	"others.minutes": "Minutes of work on each; nothing for as many as on this one",
	"batch.costs.rate": "An hour of work costs",
	"batch.costs.fee": "A fee for them all",
	"batch.costs.margin": "Per cent of the price that is left over",
	"batch.costs.roundTo": "Prices rounded up to so many cents",
	"batch.costs.sheets": "Sheets are paid",
	"batch.costs.supplies": "Glue, ribbon and what else is used up",
	"supplies.price": "Price of a pack",
	"supplies.contents": "How much is in a pack",
	"supplies.measure": "counted in, as in g or m",
	"supplies.amounts": "How much a folio takes: one for all, or one for each in their order",
	"batch.keep": "Offcuts worth keeping",
	"keep.long": "Longer side at least",
	"keep.short": "Shorter side at least",
	"materials.sheets.count": "How many there are; nothing for as many as needed",
	"materials.sheets.price": "Price of one",
	kerf: "A cut takes away",
	longestCut: "Longest cut that it makes",
	stack: "Cuts a stack as thick as",
	offcut: "An offcut that is at hand anyway",
	trim: "Trimmed off each edge",
	"measured.width": "Open width over the covering",
	"measured.height": "Height over the covering",
	"fittings.size": "Size by what is there",
	"size.picture": "Pictures that it takes",
	"size.proportions": "Proportions that are kept",
	"proportions.w": "so many parts wide",
	"proportions.h": "so many parts high",
	"w.of": "Measured by",
	"h.of": "Measured by",
	fitting: "The fitting that it is measured by",
	turned: "By its other side",
	"w.margin": "Left on either side",
	"h.margin": "Left on either side",
	less: "Less, in all",
	more: "More, in all",
	shares: "In so many equal shares",
	gap: "Gap between the shares",
	"fittings.place": "Where it lies",
	"place.along": "Along the spine",
	"place.across": "Across",
	acrossOf: "Across, lined up with",
	alongOf: "Along, lined up with",
	"place.offset": "Moved away from there; from the middle, to the right and down",
	"offset.x": "Across by",
	"offset.y": "Along by",
	size: "Size, width x height",
	page: "Page, width x height",
	count: "How many",
	oneWay: "Pattern with an up and a down",
	twoSided: "Alike on both sides",
	wrongSide: "Wrong side up",
	standsOn: "Stands on",
	stock: "Made from",
	outside: "On the outside",
	matStock: "Mat made from",
	caliper: "Thickness (caliper)",
	"mat.caliper": "Thickness of the mat",
	grammage: "Mass, g/m²",
	reveal: "Shows on each side of the picture",
	"ease|frame": "Room beside the picture",
	ease: "Larger than its content",
	"ease.w": "along the mouth by",
	"ease.h": "from foot to mouth by",
	film: "Film behind the window, from",
	foam: "Thickness of the foam",
	foamStock: "Foam made from",
	foamWidth: "Width of the foam strips",
	"lap|frame": "Covers the picture on each side by",
	mouth: "Picture slips in from the",
	rail: "Width of the frame on each side",
	"mass|ornament": "What it weighs, as in 20 g",
	build: "Made with",
	"place|slip pocket": "Room at hand, width x height",
	"place|corner pocket": "Room at hand, width x height",
	"place|gusset pocket": "Room at hand, width x height",
	"place|gusset run": "Room at hand, width x height",
	"place|pleats": "Room at hand, width x height",
	standOut: "Content stands out by",
	depth: "Share of the content that is covered",
	"depth|folded strip": "Share of the base that the front covers",
	"depth.part": "so many parts",
	"depth.of": "of so many",
	notch: "Thumb notch",
	"notch.depth": "Depth of the notch",
	"notch.width": "Width of the notch",
	glue: "Width that is glued",
	corners: "How many corners hold it",
	leg: "Length of a corner's legs",
	turn: "Edges turned under by",
	"hinge|flap": "Hinged at the",
	leaf: "Leaf at hand, width x height",
	"margin|flap": "Shows of the leaf on each side",
	"margin|folded strip": "Shows of the flap round its mat",
	"margin|concertina guard": "Shows of a leaf round its content",
	over: "Closes over something as thick as",
	"spine|flap": "Width of a spine of its own",
	"spine|folded strip": "Width of a spine of its own",
	"spine|gusset run": "Must fit, when full, into",
	"spine|folded-up accordion": "Must fit, when full, into",
	"spine|concertina guard": "Must fit, when full, into",
	tab: "Depth of the tabs that are glued",
	jointTab: "Tabs where strips are joined",
	strip: "Flat strip at hand, width x height",
	scores: "Scores, from the flap's end",
	"base|folded strip": "Width of the base",
	"flap|folded strip": "Width of the flap",
	"front|folded strip": "Width of the front",
	"hem|folded strip": "Width of the hem",
	overhang: "Flap may reach past the base by",
	opensRight: "Opens to the right",
	ownSpine: "With a spine of its own",
	onSpine: "Stands on the spine",
	openFoot: "Open at the foot",
	at: "Gussets at the",
	half: "Width of a half panel",
	opening: "Opens as far as",
	"land|gusset run": "Between two pockets",
	"land|concertina guard": "Between two folds",
	"fold|concertina guard": "Depth of a fold",
	"fold|pleats": "Depth of a fold",
	visible: "Shows of each pleat",
	pockets: "How many pockets",
	panels: "How many panels",
	pleats: "How many pleats",
	leaves: "How many leaves",
	"panel|folded-up accordion": "Panel at hand, width x height",
	"measured.panels": "Each board by itself",
	w: "Width",
	h: "Height",
};

/** What a field or a group of fields is called.
 * @param {string} path @param {unknown} [kind] the kind of what it is in */
export function label(path, kind) {
	const steps = path.replace(/\[\d+\]/g, "").split(".");
	const name = steps.at(-1) ?? "";
	const own = (/** @type {string} */ k) => (Object.hasOwn(labels, k) ? labels[k] : undefined); // a name may be "constructor"
	let word = own(name + "|" + kind);
	for (let i = 0; i < steps.length && word === undefined; i++) word = own(steps.slice(i).join("."));
	word ??= name.replace(/[A-Z]/g, (c) => " " + c.toLowerCase());
	return word.charAt(0).toUpperCase() + word.slice(1);
}

/** What one of a list is called. @type {Record<string, string>} */
const ones = { sheets: "sheet", materials: "material", stocks: "paper", supplies: "supply", scores: "score", boards: "board", joints: "joint", panels: "board", amounts: "amount", others: "folio" };

/** @param {string} path of a list */
export function one(path) {
	const name = path.slice(path.lastIndexOf(".") + 1).replace(/\[\d+\]$/, "");
	return Object.hasOwn(ones, name) ? ones[name] : "one";
}

/** An element of a list, with what that is in: sheet 1 of material 2.
 * @param {string} path */
export function which(path) {
	const [root, ...rest] = path.split(".");
	const steps = rest.reverse();
	return steps.flatMap((s, i) => {
		const n = /\[(\d+)\]$/.exec(s);
		const last = i === steps.length - 1;
		// Of what is measured, and of a batch, it is said by what it is part of.
		const whole = last && root === "measured" ? ["the cover as measured"] : last && root === "batch" && i === 0 ? ["the batch"] : [];
		return n ? [one(s) + " " + (Number(n[1]) + 1), ...whole] : whole.length ? whole : last ? [label(root + "." + s).toLowerCase()] : [];
	}).join(" of ");
}

/** Members that come before the others, in their order. */
export const order = ["name", "picture", "content", "size", "w", "count", "thickness", "caliper", "grammage", "rule", "width", "pockets", "panels", "pleats", "leaves"];

/** Members of a fitting and of a stock that are shown at once; the rest is behind "more". */
export const plainly = new Set(["name", "kind", "panel", "picture", "content", "count", "size", "caliper", "sheets", "thickness", "pockets", "panels", "pleats", "leaves"]);

/** Texts that are no lengths: nothing is added to a bare number in them. */
export const words = new Set(["name", "title", "stock", "stocks", "film", "foamStock", "matStock", "stiffener", "standsOn", "mass", "grammage", "currency", "measure", "except", "price", "rate", "fee"]);

/** A bare number takes the unit of the page. @param {string} text @param {string} unit */
export function withUnit(text, unit) {
	return /^[-\d\s./,½¼¾⅛⅜⅝⅞x×]*[\d½¼¾⅛⅜⅝⅞]$/i.test(text) ? text + " " + unit : text;
}

/** A size with one of its sides another length. @param {unknown} text @param {string} side @param {string} to */
export function withSide(text, side, to) {
	const parts = typeof text === "string" ? text.split(/\s*[x×]\s*/i) : [];
	if (parts.length !== 2) return undefined;
	const unit = /[a-z"'″′]+\s*$/i.exec(parts[1])?.[0] ?? "";
	const w = /[a-z"'″′]/i.test(parts[0]) ? parts[0] : parts[0] + " " + unit;
	return side === "w" ? to + " x " + parts[1] : w + " x " + to;
}

/** A size turned a quarter. @param {unknown} text */
export function turned(text) {
	const parts = typeof text === "string" ? text.split(/\s*[x×]\s*/i) : [];
	return parts.length === 2 ? withSide(parts[1] + " x " + parts[1], "h", withSide(text, "h", parts[1])?.split(/\s*x\s*/)[0] ?? "") : undefined;
}
