// @ts-check
// What is to be said of the folio as a whole: whether it shuts, what it weighs, how
// it travels.
import { make, replaceIn } from "./form.js";
import { at, atMost, isPlain } from "./state.js";

/** @typedef {Record<string, any>} Plain */

/** Shows the verdicts. @param {HTMLElement} box @param {Plain} answer @param {string} ruler of the folio */
export function showVerdicts(box, answer, ruler) {
	if (!isPlain(answer.verdicts)) return;
	const v = answer.verdicts;
	replaceIn(box, [make("dl", {},
		...line("Does it shut?", ...shutting(at(v, "closing.closing") ?? {}, ruler)),
		...line("What does it weigh?", ...weight(v.weight ?? [])),
		...line("How does it travel?", ...travel(v)),
	)]);
}

/** @param {string} head @param {...Node} inside */
const line = (head, ...inside) => [make("dt", {}, head), make("dd", {}, ...inside)];

/** @param {Plain} c @param {string} ruler @returns {Node[]} */
function shutting(c, ruler) {
	const of = [["Empty", c.empty?.[0]], ["With all that it holds", c.full?.[0]]].filter(([, t]) => t);
	if (!c.shuts || of.length === 0) return [make("p", {}, "No: its boards do not lie flat on each other.")];
	const all = of.every(([, t]) => t.closes);
	const eased = of.every(([, t]) => t.eased);
	const said = make("p", {}, make("strong", {}, !all ? "Not with all that it holds." : eased ? "Yes, with room to spare." : "Yes, but tightly."));
	const overall = c.full?.[0]?.overall;
	const same = of.length === 2 && of[0][1].text === of[1][1].text;
	return [said,
		...(overall ? [make("p", {}, "Shut and filled it is at most " + atMost(overall.width.length, ruler) + " x " + atMost(overall.height.length, ruler) + " and " + atMost(overall.thickness.length, ruler) + " thick.")] : []),
		...(same ? of.slice(1) : of).map(([when, t]) => make("p", {}, (same ? "Tightest, empty or filled: " : when + ", tightest: ") + t.text + "." + (t.eased ? "" : " " + sentence(t.wouldDo.text)))),
	];
}

/** @param {string} text */
const sentence = (text) => text.charAt(0).toUpperCase() + text.slice(1) + ".";

/** @param {number} n */
const rounded = (n) => (n < 10 ? n.toFixed(1) : String(Math.round(n)));

/** @param {Plain[]} all @returns {Node[]} */
function weight(all) {
	return all.map((w) => {
		const missing = [...new Set(w.unknown)];
		const most = { known: "", estimated: "About ", unknown: "At least " }[/** @type {"known" | "estimated" | "unknown"} */ (w.certainty)];
		return make("p", {}, sentence((most + rounded(w.grams) + " g (" + rounded(w.ounces) + " oz) " + (w.filled ? "with what it holds" : "empty")
			+ (missing.length ? "; not counted, as nothing says what it weighs: " + missing.map((name) => "“" + name + "”").join(", ") : ""))));
	});
}

/** @param {Plain} v @returns {Node[]} */
function travel(v) {
	const post = (v.post ?? []).map((/** @type {Plain} */ p) => p.posting).filter(isPlain);
	if (post.length === 0) return [make("p", {}, "Not by post as it is: it does not shut.")];
	return [
		...post.map((p) => make("p", {}, p.service + ": ", make("strong", {}, p.smallest ? "as a " + p.smallest : "in no format of this table"), " at the least, filled and without an envelope.")),
		...(v.box ? [make("p", {}, "A box round it, with padding, is " + v.box + " on the inside.")] : []),
		make("details", { id: "post-more" }, make("summary", {}, "what each format says"), ...post.map(table), make("p", { className: "hint" }, v.notice)),
	];
}

/** @param {Plain} p */
function table(p) {
	const rows = (p.formats ?? []).map((/** @type {Plain} */ f) => {
		const against = ["size", "mass", "shape", "rigidity", "evenness", "box"].map((k) => f[k]).filter((one) => one && one.treatment !== "accepted").map((one) => one.text);
		return make("tr", {}, make("th", { scope: "row" }, f.format), make("td", {}, f.overall), make("td", {}, against.join("; ")));
	});
	return make("div", { className: "scroll", tabIndex: 0, role: "region", "aria-label": "What " + p.service + " says" },
		make("table", {}, make("caption", {}, p.source.includes(p.date) ? p.source : p.source + ", " + p.date), make("thead", {}, make("tr", {}, ...["Format", "Taken", "Why"].map((t) => make("th", { scope: "col" }, t)))), make("tbody", {}, ...rows)));
}
