// @ts-check
// Several copies: how they are laid out on sheets, and what they cost.
import { svgOf } from "./drawings.js";
import { make } from "./form.js";
import { at, isPlain } from "./state.js";

/** @typedef {Record<string, any>} Plain */
/** @typedef {import("./form.js").Form} Form */

/** The section of the form. @param {Form} form @param {Plain} state @param {Plain} schema @param {{lay: () => void, sheets: () => void}} acts */
export function batchSection(form, state, schema, acts) {
	Object.assign(form.defs, schema.$defs);
	const defs = schema.$defs;
	const batch = defs["wire.Batch"].properties;
	const costs = defs["cost.Basis"].properties;
	const lay = make("button", { type: "button", id: "lay" }, "Lay it out");
	lay.addEventListener("click", acts.lay);
	const copies = form.field("batch.copies", { type: "integer" });
	const money = make("details", { id: "batch-costs" }, make("summary", {}, "work, fees and the price"),
		form.field("batch.currency", { type: "string" }),
		...["rate", "fee", "margin", "roundTo", "sheets"].filter((n) => costs[n]).map((n) => form.part("batch.costs." + n, costs[n], state)),
		form.field("batch.minutes", { type: "integer" }),
		form.part("batch.costs.supplies", costs.supplies, state));
	const cut = make("details", { id: "batch-cut" }, make("summary", {}, "the cutter, and leftovers worth keeping"),
		form.part("batch.cutter", batch.cutter, state), form.part("batch.keep", batch.keep, state));
	const fill = make("button", { type: "button", id: "batch-sheets" }, "Begin from the sheets at hand");
	fill.addEventListener("click", acts.sheets);
	const materials = make("details", { id: "batch-materials" }, make("summary", {}, "sheets to buy, their numbers and prices"),
		make("p", { className: "hint" }, "Left alone, as many of the sheets above are taken as are needed."), fill, form.part("batch.materials", batch.materials, state));
	return make("section", { id: "batch", "aria-labelledby": "batch-head" }, make("h2", { id: "batch-head" }, "Several of them"),
		copies, materials, cut, money, make("p", { className: "buttons" }, lay));
}

/** An amount with its currency. @param {unknown} v @param {string} currency */
function amount(v, currency) {
	return typeof v === "string" && /^\d{1,12}(\.\d*)?$/.test(v.trim()) ? Number(v).toFixed(2) + " " + currency : v;
}

/** The document of the batch. @param {Plain} state */
export function batchDocument(state) {
	const b = isPlain(state.batch) ? state.batch : {};
	const currency = typeof b.currency === "string" && b.currency.trim() !== "" ? b.currency.trim() : "USD";
	const materials = (Array.isArray(b.materials) ? b.materials : []).map((m) => (isPlain(m) ? {
		...m,
		...(Array.isArray(m.sheets) ? { sheets: m.sheets.map((s) => (isPlain(s) ? { ...s, count: s.count ?? -1, ...(s.price === undefined ? {} : { price: amount(s.price, currency) }) } : s)) } : {}),
	} : m));
	const costs = isPlain(b.costs) ? { ...b.costs } : {};
	for (const n of ["rate", "fee"]) if (costs[n] !== undefined) costs[n] = amount(costs[n], currency);
	if (typeof costs.margin === "number") costs.margin *= 100;
	if (Array.isArray(costs.supplies)) costs.supplies = costs.supplies.map((s) => (isPlain(s) && s.price !== undefined ? { ...s, price: amount(s.price, currency) } : s));
	if (b.minutes !== undefined) costs.minutes = [b.minutes];
	const folios = [{ spec: state.spec ?? {}, copies: b.copies ?? 1 }];
	return JSON.stringify({ version: 1, batch: { folios, ...(materials.length ? { materials } : {}), ...(b.cutter ? { cutter: b.cutter } : {}), ...(b.keep ? { keep: b.keep } : {}), costs } });
}

/** The sheets that the Spec says are at hand, as materials of the batch.
 * @param {Plain} state @param {Plain} filled the Spec with its defaults */
export function sheetsAtHand(state, filled) {
	const all = [];
	const stocks = ["board", "covering", "spineCovering", "liner"].map((n) => [at(state, "spec." + n), at(filled, n)]);
	const more = at(state, "spec.stocks");
	if (Array.isArray(more)) for (const s of more) stocks.push([s, s]);
	for (const [given, full] of stocks) {
		const sheets = at(given, "sheets");
		const name = at(full, "name");
		if (!Array.isArray(sheets) || typeof name !== "string" || all.some((m) => m.name === name)) continue;
		all.push({ name, sheets: sheets.filter(isPlain).map((s) => ({ size: s.size, ...(s.grain ? { grain: s.grain } : {}) })) });
	}
	return all;
}

/** Shows a layout and its costs. @param {HTMLElement} box @param {Plain} answer @param {(v: Plain) => HTMLElement} problem
 * @param {(which: string) => void} paper prints a list */
export function showBatch(box, answer, problem, paper) {
	const laid = isPlain(answer.laid) ? answer.laid : {};
	const layout = at(laid, "layout.layout") ?? {};
	const errors = [answer.error, at(laid, "error.error")].filter(isPlain);
	const wrong = errors.flatMap((e) => {
		const all = [...(e.problems ?? []), ...(e.faults ?? [])];
		return all.length ? all.map(problem) : [make("p", { className: "problem" }, e.message)];
	});
	/** @type {Node[]} */
	const parts = [...wrong];
	if (layout.materials?.length) {
		const body = make("tbody", {}, ...layout.materials.map((m) => make("tr", {}, make("th", { scope: "row" }, m.name), make("td", { className: "n" }, String(m.bought)),
			make("td", {}, m.proved ? "no fewer would do" : "at least " + m.bound), make("td", { className: "n" }, /[1-9]/.test(m.price) ? m.price : ""))));
		parts.push(make("table", {}, make("thead", {}, make("tr", {}, ...["Sheets of", "How many", "Proved", "Price"].map((t, i) => make("th", { scope: "col", className: i % 2 ? "n" : "" }, t)))), body));
	}
	if (laid.apart?.length) parts.push(make("p", { className: "hint" }, "Not laid out, as no sheets of it are at hand: " + laid.apart.join(", ") + "."));
	for (const w of layout.warnings ?? []) parts.push(make("p", { className: "hint" }, w.text.charAt(0).toUpperCase() + w.text.slice(1) + (w.text.endsWith(".") ? "" : ".")));
	const drawn = (laid.sheets ?? []).map((p) => {
		const svg = svgOf(p.svg);
		return make("figure", {}, make("div", { className: "view" }, ...(svg ? [svg] : [])), make("figcaption", {}, p.title));
	});
	if (drawn.length) parts.push(make("div", { className: "pictures" }, ...drawn));
	const costs = at(laid, "costs.costs");
	if (isPlain(costs) && /[1-9]/.test(String(costs.total))) {
		const priced = (/** @type {unknown} */ amount) => /[1-9]/.test(String(amount));
		const lines = (costs.charges ?? []).filter((c) => priced(c.amount)).map((c) => make("li", {}, c.text.startsWith(c.label + " ") ? c.label + ": " + c.text.slice(c.label.length + 1) : c.text));
		const each = costs.folios?.[0];
		const without = [...(layout.materials ?? []).filter((m) => m.bought > 0 && !priced(m.price)).map((m) => m.name), ...(laid.apart ?? [])];
		if (lines.length) {
			parts.push(make("h3", {}, "What it costs: " + costs.total), make("ul", {}, ...lines));
			if (without.length) parts.push(make("p", { className: "hint" }, "Not counted, as nothing says what it costs: " + without.join(", ") + "."));
			if (each) parts.push(make("p", {}, "Each costs " + each.each.amount + (each.price ? "; to ask for one: " + each.price.amount : "") + "."));
		}
	}
	if (layout.steps?.length) parts.push(make("details", { id: "cuts" }, make("summary", {}, "how the sheets are cut up, step by step"), make("ol", {}, ...layout.steps.map((s) => make("li", {}, s.text)))));
	if (layout.materials?.length && wrong.length === 0) {
		const button = (/** @type {string} */ which, /** @type {string} */ text) => {
			const b = make("button", { type: "button", id: "print-" + which }, text);
			b.addEventListener("click", () => paper(which));
			return b;
		};
		parts.push(make("p", { className: "buttons" }, button("buy", "Print what to buy"), button("cut", "Print the cutting book"),
			...(isPlain(costs) && /[1-9]/.test(String(costs.total)) ? [button("prices", "Print the price list")] : [])));
	}
	box.replaceChildren(...parts);
}
