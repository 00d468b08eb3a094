// @ts-check
// Several copies: how they are laid out on sheets, and what they cost.
import { grow, svgOf } from "./drawings.js";
import { make, replaceIn } from "./form.js";
import { at, isPlain } from "./state.js";

/** @typedef {Record<string, any>} Plain */
/** @typedef {import("./form.js").Form} Form */

/** How many other folios have fields. */
const most = 40;

/** The other folios that are laid out with this one. @param {Plain} state @returns {unknown[]} */
export function othersOf(state) {
	const others = at(state, "batch.others");
	return Array.isArray(others) ? others : [];
}

/** What another folio is called: by its name, else by its number.
 * @param {unknown} other @param {number} i */
export function titleOfOther(other, i) {
	const title = at(other, "spec.title");
	return typeof title === "string" && title.trim() !== "" ? title : "folio " + (i + 2);
}

/** What is done to a batch. @typedef {{lay: () => void, sheets: () => void, aside: (anew: boolean) => void, kept: () => void, swap: (i: number) => void, drop: (i: number) => void}} Acts */

/** The section of the form. @param {Form} form @param {Plain} state @param {Plain} schema @param {Acts} acts */
export function batchSection(form, state, schema, acts) {
	Object.assign(form.defs, schema.$defs);
	const defs = schema.$defs;
	const batch = defs["wire.Batch"].properties;
	const costs = defs["cost.Basis"].properties;
	/** @param {string} id @param {string} text @param {() => void} act @param {...Node} hidden */
	const button = (id, text, act, ...hidden) => {
		const b = make("button", { type: "button", id }, text, ...hidden);
		b.addEventListener("click", act);
		return b;
	};
	const copies = form.field("batch.copies", { type: "integer" });
	const others = othersOf(state).slice(0, most).map((_, i) => {
		const path = "batch.others[" + i + "]";
		const named = () => make("span", { className: "hidden" }, " ", make("span", { "data-other": String(i) }));
		const wrong = make("div", { className: "wrong", id: "f-batch-others-" + i + "-wrong" });
		form.places.set(path, wrong);
		return make("fieldset", { className: "card", id: "other-" + i, tabIndex: -1 }, make("legend", { "data-other": String(i) }), wrong,
			form.field(path + ".copies", { type: "integer" }), form.field(path + ".minutes", { type: "integer" }),
			make("div", { className: "buttons" }, button("swap-" + i, "Work on it", () => acts.swap(i), named()), button("drop-" + i, "Take out", () => acts.drop(i), named())));
	});
	const more = make("details", { id: "batch-others" }, make("summary", {}, "other folios, laid out with this one"),
		make("p", { className: "hint" }, "They are cut from the same sheets, and bought for and priced together."), ...others,
		make("div", { className: "buttons" }, button("aside-copy", "Set this one aside, go on with a copy", () => acts.aside(false)), button("aside-anew", "Set it aside, begin an empty one", () => acts.aside(true)), button("other-kept", "Add one that was kept (JSON)", acts.kept)));
	const money = make("details", { id: "batch-costs" }, make("summary", {}, "work, fees and the price"),
		form.field("batch.currency", { type: "string" }),
		...["rate", "fee", "margin", "roundTo", "sheets"].filter((n) => costs[n]).map((n) => form.part("batch.costs." + n, costs[n], state)),
		form.field("batch.minutes", { type: "integer" }),
		form.part("batch.costs.supplies", costs.supplies, state));
	const cut = make("details", { id: "batch-cut" }, make("summary", {}, "the cutter, and offcuts worth keeping"),
		form.part("batch.cutter", batch.cutter, state), form.part("batch.keep", batch.keep, state));
	const fill = button("batch-sheets", "Begin from the sheets at hand", acts.sheets);
	const materials = make("details", { id: "batch-materials" }, make("summary", {}, "sheets to buy, their numbers and prices"),
		make("p", { className: "hint" }, "Left alone, as many of the sheets above are taken as are needed."), fill, form.part("batch.materials", batch.materials, state));
	return make("section", { id: "batch", "aria-labelledby": "batch-head" }, make("h2", { id: "batch-head" }, "Several of them"),
		copies, more, materials, cut, money, make("p", { className: "buttons" }, button("lay", "Lay it out", acts.lay)));
}

/** A code of a currency in what is written. */
const code = /(?<![a-z])[a-z]{3}(?![a-z])/i;

/** An amount with its currency, in front of what is written but for a code of its own: so
 * it is read as people write, and what is not clear is refused.
 * @param {unknown} v @param {string} currency */
const amount = (v, currency) => (typeof v !== "string" || code.test(v) ? v : currency + " " + v.trim());

/** The currency of a batch: the one that is said, or that of the first amount that says its own.
 * @param {Plain} state @returns {string} */
export function currencyOf(state) {
	const b = at(state, "batch");
	const said = at(b, "currency");
	if (typeof said === "string" && said.trim() !== "") return said.trim().toUpperCase();
	const list = (/** @type {unknown} */ v) => (Array.isArray(v) ? v : []);
	const priced = [...list(at(b, "materials")).flatMap((m) => list(at(m, "sheets"))), ...list(at(b, "costs.supplies"))].map((s) => at(s, "price"));
	for (const v of [...priced, at(b, "costs.rate"), at(b, "costs.fee")]) {
		const own = typeof v === "string" && (code.exec(v)?.[0].toUpperCase() ?? (v.includes("€") ? "EUR" : v.includes("£") ? "GBP" : undefined));
		if (own) return own;
	}
	return "USD";
}

/** The document of the batch. @param {Plain} state @param {boolean} [alone] without the other folios */
export function batchDocument(state, alone = false) {
	const b = isPlain(state.batch) ? state.batch : {};
	const currency = currencyOf(state);
	const materials = (Array.isArray(b.materials) ? b.materials : []).map((m) => (isPlain(m) ? {
		...m,
		...(Array.isArray(m.sheets) ? { sheets: m.sheets.map((s) => (isPlain(s) ? { ...s, count: s.count ?? -1, ...(s.price === undefined ? {} : { price: amount(s.price, currency) }) } : s)) } : {}),
	} : m));
	const costs = isPlain(b.costs) ? { ...b.costs } : {};
	const others = alone ? [] : othersOf(state).filter(isPlain);
	for (const n of ["rate", "fee"]) if (costs[n] !== undefined) costs[n] = amount(costs[n], currency);
	if (typeof costs.margin === "number") costs.margin *= 100;
	if (Array.isArray(costs.supplies)) {
		costs.supplies = costs.supplies.map((s) => (isPlain(s) ? {
			...s, ...(s.price === undefined ? {} : { price: amount(s.price, currency) }), ...(alone && Array.isArray(s.amounts) ? { amounts: s.amounts.slice(0, 1) } : {}),
		} : s));
	}
	// How long each takes; what is not said of another one is as with this.
	const minutes = [b.minutes ?? 0, ...others.map((o) => o.minutes ?? b.minutes ?? 0)];
	if (minutes.some((m) => m !== 0)) costs.minutes = minutes.every((m) => m === minutes[0]) ? minutes.slice(0, 1) : minutes;
	// A cover that was measured is made: what is still to be cut is its inside.
	const made = (/** @type {Plain} */ { spec, measured }, /** @type {unknown} */ copies) => ({ spec: spec ?? {}, ...(measured === undefined ? {} : { measured }), copies: copies ?? 1 });
	const folios = [made(state, b.copies), ...others.map((o) => made(o, o.copies))];
	return JSON.stringify({ version: 1, batch: { folios, ...(materials.length ? { materials } : {}), ...(b.cutter ? { cutter: b.cutter } : {}), ...(b.keep ? { keep: b.keep } : {}), costs } });
}

/** Which covers were measured, and so are made and not cut again, in words.
 * @param {Plain} state */
export function madeOf(state) {
	const others = othersOf(state);
	const made = [{ ...state, copies: at(state, "batch.copies") }, ...others].map((one, i) => ({ name: titleOfOther(one, i - 1), n: at(one, "copies") ?? 1, measured: at(one, "measured") !== undefined })).filter((one) => one.measured);
	if (made.length === 0) return "";
	if (others.length === 0) return "The cover was measured, so " + (made[0].n === 1 ? "it is" : "all " + made[0].n + " of them are") + " made: only what goes inside is laid out.";
	return "Covers that were measured are made, and only what goes inside them is laid out: " + made.map(({ name, n }) => name + (n === 1 ? "" : ", all " + n + " of it")).join("; ") + ".";
}

/** What is wrong with a batch, as the answer about it says: with paths of the state, and
 * in the words of the fields.
 * @param {Plain} answer @param {Plain} state @returns {Plain[]} */
export function wrongWith(answer, state) {
	const others = othersOf(state).filter(isPlain);
	return [answer.error, at(answer, "laid.error.error")].filter(isPlain).flatMap((e) => {
		const all = [...(e.problems ?? []), ...(e.faults ?? [])].map((v) => {
			let path = (v.pointer ? "batch." : "") + v.path;
			let { got, want, of } = v;
			const folio = /^batch\.(?:folios\[(\d+)\]\.?|costs\.minutes\[(\d+)\])(.*)$/.exec(path);
			const i = folio ? Number(folio[1] ?? folio[2]) - 1 : -1;
			if (folio) path = folio[2] ? "batch.minutes" : /^measured\b/.test(folio[3]) ? folio[3] : folio[3].startsWith("spec") ? folio[3].replace(/^spec\.?/, "") : "batch." + folio[3];
			if (folio && i >= 0) {
				path = "batch.others[" + i + "]" + (folio[2] ? ".minutes" : folio[3] === "copies" ? ".copies" : "");
				if (!/\.\w+$/.test(path)) of = titleOfOther(others[i], i) + (of ? ", " + of : "");
			}
			if (/^an amount with its currency/.test(want)) {
				const added = '"' + currencyOf(state) + " ";
				if (String(got).startsWith(added) && !/^[A-Z]{3}$/.test(currencyOf(state))) [path, got, want] = ["batch.currency", JSON.stringify(at(state, "batch.currency")), "three letters, as in USD"];
				else [got, want] = [String(got).replace(added, '"'), want.replace(/ with its currency, as in "4.50 USD"/, ", as in 4.50")];
			}
			path = path.replace(/\.(?:price|rate|fee)\.currency$/, (p) => p.slice(0, -".currency".length));
			if (path === "batch.costs.margin" && /^\d+$/.test(got)) [got, want] = [got / 100 + " per cent", "from 0 to 99"];
			const pointer = v.pointer && "/" + path.split(/[.[\]]+/).filter((k) => k !== "").join("/");
			return { ...v, ...(pointer ? { pointer } : {}), path, got, want, of };
		});
		return all.length ? all : [{ path: "", got: e.message, want: "" }];
	}).filter((v, i, all) => all.findIndex((w) => w.path === v.path && w.got === v.got && w.want === v.want) === i);
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

/** Shows a layout and its costs. @param {HTMLElement} box @param {Plain} answer @param {HTMLElement[]} wrong what is wrong with it
 * @param {boolean} several whether other folios are laid out with this one
 * @param {string} made what is not cut again
 * @param {number} larger how much larger than usual text is wanted
 * @param {(which: string) => void} paper prints a list */
export function showBatch(box, answer, wrong, several, made, larger, paper) {
	const laid = isPlain(answer.laid) ? answer.laid : {};
	const layout = at(laid, "layout.layout") ?? {};
	const priced = (/** @type {unknown} */ amount) => /[1-9]/.test(String(amount));
	/** @type {Node[]} */
	const parts = wrong.length ? [make("ul", { className: "wrongs" }, ...wrong)] : [];
	/** @type {Plain[]} */
	const materials = layout.materials ?? [];
	if (materials.length) {
		const heads = ["Sheets of", "How many", "Proved", ...(materials.some((m) => priced(m.price)) ? ["Price"] : [])];
		const many = (/** @type {Plain} */ m) => [...(m.bought || !m.fromOffcuts ? [String(m.bought)] : []), ...(m.fromOffcuts ? [m.fromOffcuts + (m.fromOffcuts === 1 ? " offcut" : " offcuts")] : [])].join(" and ");
		const body = make("tbody", {}, ...materials.map((m) => make("tr", {}, make("th", { scope: "row" }, m.name), make("td", { className: "n" }, many(m)),
			make("td", {}, layout.complete === false ? "for what has a place" : m.proved ? "no fewer would do" : "at least " + m.bound), ...(heads.length > 3 ? [make("td", { className: "n" }, priced(m.price) ? m.price : "")] : []))));
		parts.push(make("table", { "aria-labelledby": "laid-head" }, make("thead", {}, make("tr", {}, ...heads.map((t, i) => make("th", { scope: "col", className: i % 2 ? "n" : "" }, t)))), body));
	}
	if (laid.apart?.length) parts.push(make("p", { className: "hint" }, "Not laid out, as no sheets of it are at hand: " + laid.apart.join(", ") + ". Which sheets there are is said among “Boards and papers at hand”, or among the sheets to buy."));
	for (const w of layout.warnings ?? []) {
		parts.push(make("p", { className: "hint" }, w.text.charAt(0).toUpperCase() + w.text.slice(1) + (w.text.endsWith(".") ? "" : ".")));
	}
	/** How a sheet is told from the others: how many are cut alike, and what is at hand. @type {Map<number, string>} */
	const how = new Map(materials.flatMap((m) => (m.sheets ?? []).map((/** @type {Plain} */ s) => [s.number, [
		...(m.used?.[s.kind]?.kind.offcut ? [s.times > 1 ? s.times + " offcuts at hand, cut alike" : "an offcut at hand"] : s.times > 1 ? [s.times + " cut alike"] : []),
	].join()])));
	if (made && materials.length) parts.push(make("p", { className: "hint" }, made));
	const drawn = (laid.sheets ?? []).map((p) => {
		const svg = svgOf(p.svg);
		// A piece is told by its number, which is that of others in other folios.
		for (const el of several && svg ? svg.querySelectorAll("[data-piece]") : []) el.removeAttribute("data-piece");
		if (svg) grow(svg, larger);
		const more = how.get(Number(/\d+$/.exec(p.name)?.[0]));
		return make("figure", {}, make("div", { className: "view" }, ...(svg ? [svg] : [])), make("figcaption", {}, p.title + (more ? ": " + more : "")));
	});
	if (drawn.length) parts.push(make("div", { className: "pictures" }, ...drawn));
	const costs = at(laid, "costs.costs");
	if (isPlain(costs) && priced(costs.total)) {
		const lines = (costs.charges ?? []).filter((c) => priced(c.amount)).map((c) => make("li", {}, c.text.startsWith(c.label + " ") ? c.label + ": " + c.text.slice(c.label.length + 1) : c.text));
		const without = [...materials.filter((m) => m.bought > 0 && !priced(m.price)).map((m) => m.name), ...(laid.apart ?? [])];
		if (lines.length) {
			parts.push(make("h3", {}, "What it costs: " + costs.total), make("ul", {}, ...lines));
			if (without.length) parts.push(make("p", { className: "hint" }, "Not counted, as nothing says what it costs: " + without.join(", ") + "."));
			for (const f of costs.folios ?? []) parts.push(make("p", {}, (several ? (f.name || "Folio " + (f.index + 1)) + ": each" : "Each") + " costs " + f.each.amount + (f.price ? "; to ask for one: " + f.price.amount : "") + "."));
		}
	}
	if (layout.steps?.length) parts.push(make("details", { id: "cuts" }, make("summary", {}, "how the sheets are cut up, step by step"), make("ol", {}, ...layout.steps.map((s) => make("li", {}, s.text)))));
	if (materials.length && wrong.length === 0) {
		const button = (/** @type {string} */ which, /** @type {string} */ text) => {
			const b = make("button", { type: "button", id: "print-" + which }, text);
			b.addEventListener("click", () => paper(which));
			return b;
		};
		parts.push(make("p", { className: "buttons" }, button("buy", "Print what to buy"), button("cut", "Print the cutting book"),
			...(isPlain(costs) && priced(costs.total) ? [button("prices", "Print the price list")] : [])));
	}
	replaceIn(box, parts);
}
