// @ts-check
// What the fields are called, in words of the trade, and which come first.

/** Labels where the member's own name would not do. @type {Record<string, string>} */
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
	"spec.placing": "Boards laid out of place by",
	"spec.clearance": "Room round each fitting",
	"spec.groove": "Scored on the fold's",
	"spec.turning": "Turned in first",
	"spec.rulers.main": "Ruler",
	"batch.copies": "How many copies",
	"batch.currency": "Currency, as in USD",
	"batch.minutes": "Minutes of work on each",
	"batch.costs.rate": "An hour of work costs",
	"batch.costs.fee": "A fee for them all",
	"batch.costs.margin": "Per cent of the price that is left over",
	"batch.costs.roundTo": "Prices rounded up to so many cents",
	"batch.costs.sheets": "Sheets are paid",
	"batch.materials.sheets.count": "How many there are; nothing for as many as needed",
	"batch.materials.sheets.price": "Price of one",
	"measured.width": "Open width over the covering",
	"measured.height": "Height over the covering",
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
	caliper: "Caliper",
	grammage: "Mass, g/m²",
	opensRight: "Opens to the right",
	onSpine: "Stands on the spine",
	ownSpine: "With a spine of its own",
	openFoot: "Open at the foot",
	at: "Gusset at",
	x: "Moved to the right by",
	y: "Moved down by",
	w: "Width",
	h: "Height",
	along: "Along the spine",
	across: "Across",
	of: "of",
	part: "Part",
};

/** @param {string} path */
export function label(path) {
	const plain = path.replace(/\[\d+\]/g, "");
	const name = plain.slice(plain.lastIndexOf(".") + 1);
	const own = (/** @type {string} */ k) => (Object.hasOwn(labels, k) ? labels[k] : undefined); // a name may be "constructor"
	const word = own(plain) ?? own(name) ?? name.replace(/[A-Z]/g, (c) => " " + c.toLowerCase());
	return word.charAt(0).toUpperCase() + word.slice(1);
}

/** Members that come before the others, in their order. */
export const order = ["name", "picture", "content", "count", "size", "thickness", "caliper", "grammage", "rule", "width", "pockets", "panels", "pleats", "leaves"];

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
