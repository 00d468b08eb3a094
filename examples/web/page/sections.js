// @ts-check
// The sections of the form, in the order in which a maker thinks.
import { make } from "./form.js";
import { at, isPlain } from "./state.js";
import { label, turned } from "./words.js";

/** @typedef {import("./form.js").Form} Form */
/** @typedef {Record<string, any>} Plain */

/** How many fittings have fields. */
const most = 60;

/** Members of the Spec that have a place of their own; all others are in "How it is made". */
const placed = new Set(["title", "form", "cover", "spine", "block", "flapWidth", "doorGap", "fittings", "board", "covering", "liner", "spineCovering", "stocks"]);

/** @param {string} id @param {string} head @param {...Node} inside */
function section(id, head, ...inside) {
	return make("section", { id, "aria-labelledby": id + "-head" }, make("h2", { id: id + "-head" }, head), ...inside);
}

/** @param {string} id @param {string} summary @param {...Node} inside */
function more(id, summary, ...inside) {
	return make("details", { id }, make("summary", {}, summary), ...inside);
}

/** What is done to fittings. @typedef {{add: (kind: string) => void, take: (i: number) => void, turn: (i: number) => void, nudge: (i: number, x: number, y: number) => void}} Acts */

/** @param {Form} form @param {Plain} state @param {Acts} acts */
export function sections(form, state, acts) {
	const spec = form.defs["folio.Spec"].properties;
	const spine = form.defs["folio.Spine"].properties;
	/** @param {string} name */
	const part = (name) => form.part("spec." + name, spec[name], state);
	const shape = at(state, "spec.form");
	// What is wrong with the spine as a whole is said at its width.
	const spineWrong = make("div", { className: "wrong", id: "f-spec-spine-wrong" });
	form.places.set("spec.spine", spineWrong);
	const size = section("size", "The folio",
		part("title"), part("form"), part("cover"),
		form.field("spec.spine.width", spine.width), spineWrong, form.field("spec.spine.contents", spine.contents),
		...(shape === "cover, spine, cover, spine, flap" || /flap/.test(String(shape)) ? [part("flapWidth")] : []),
		...(/gate|door/.test(String(shape)) ? [part("doorGap")] : []),
		more("around", "built around a block, and other rules of the spine",
			form.field("spec.spine.rule", spine.rule), form.field("spec.spine.stiffener", spine.stiffener), part("block"),
			...(/flap/.test(String(shape)) ? [] : [part("flapWidth")]), ...(/gate|door/.test(String(shape)) ? [] : [part("doorGap")])));
	const stock = (/** @type {string} */ name) => more("stock-" + name, label("spec." + name), part(name));
	const stocks = section("stocks", "Boards and papers at hand", stock("board"), stock("covering"), stock("liner"),
		more("further", "further papers, and a covering for the spine", part("stocks"), part("spineCovering")));
	const rest = Object.keys(spec).filter((n) => !placed.has(n)).sort();
	const made = section("made", "How it is made", more("rules", "hinge, margins, mitres, rulers, magnets", ...rest.map(part)));
	return [size, fittings(form, state, acts), stocks, made, measured(form, state)];
}

/** Says in a line what each stock is, for as long as its fields are put away.
 * @param {Plain} full the state with every default filled in */
export function showStocks(full) {
	for (const name of ["board", "covering", "liner"]) {
		const summary = document.querySelector("#stock-" + name + " > summary");
		const s = at(full, "spec." + name);
		if (!summary || !isPlain(s)) continue;
		const sheets = Array.isArray(s.sheets) ? s.sheets.map((one) => at(one, "size")).filter((t) => typeof t === "string") : [];
		const title = label("spec." + name);
		const own = typeof s.name === "string" && s.name !== "" && s.name.toLowerCase() !== title.toLowerCase() ? s.name : "";
		const text = title + ": " + [own, s.caliper ? s.caliper + " thick" : "", sheets.length ? "sheets of " + sheets.join(", ") : ""].filter((t) => t !== "").join(", ");
		if (summary.textContent !== text) summary.textContent = text;
	}
}

/** Which kinds there are, by their words. @param {Form} form @returns {Plain[]} */
export function kindsOf(form) {
	const all = [];
	for (const o of form.defs["folio.Kind"].oneOf) {
		const type = o.properties.type.const;
		if (!o.properties.kind) all.push({ word: type, kind: { type } });
		else for (const p of form.defs["pocket.Kind"].oneOf) all.push({ word: p.properties.type.const, kind: { type, kind: { type: p.properties.type.const } } });
	}
	return all;
}

/** @param {Form} form @param {Plain} state @param {Acts} acts */
function fittings(form, state, acts) {
	const list = at(state, "spec.fittings");
	const cards = (Array.isArray(list) ? list.slice(0, most) : []).map((_, i) => card(form, state, i, acts));
	if (Array.isArray(list) && list.length > most) cards.push(make("p", { className: "hint" }, "Only the first " + most + " have fields here; the drawing of the inside and the pieces have all " + list.length + "."));
	const pick = /** @type {HTMLSelectElement} */ (make("select", { id: "add-kind" }));
	for (const k of kindsOf(form)) pick.append(make("option", { value: k.word }, k.word));
	pick.value = "slip pocket";
	const add = make("button", { type: "button", id: "add-fitting" }, "Add it");
	add.addEventListener("click", () => acts.add(pick.value));
	const wrong = make("div", { className: "wrong", id: "f-spec-fittings-wrong" });
	form.places.set("spec.fittings", wrong);
	return section("fittings", "On the panels", wrong, ...cards,
		make("div", { className: "add" }, make("label", { htmlFor: "add-kind" }, "Another fitting"), pick, add));
}

/** @param {Form} form @param {Plain} state @param {number} i @param {Acts} acts */
function card(form, state, i, acts) {
	const path = "spec.fittings[" + i + "]";
	const schema = form.defs["folio.Fitting"];
	// Its name is in all of these, and follows what is typed.
	const named = () => make("span", { className: "hidden", "data-title": "" });
	const set = make("fieldset", { className: "card", id: "fitting-" + i, tabIndex: -1 }, make("legend", { "data-title": "" }));
	const wrong = make("div", { className: "wrong", id: "f-spec-fittings-" + i + "-wrong" });
	form.places.set(path, wrong);
	set.append(wrong, form.part(path + ".name", schema.properties.name, state), form.part(path + ".panel", schema.properties.panel, state));
	set.append(form.part(path + ".kind", schema.properties.kind, state));
	const rest = more("fitting-" + i + "-where", "where it lies, and what it is made from");
	rest.firstElementChild?.append(make("span", { className: "hidden" }, ": "), named());
	for (const n of ["stock", "place", "outside", "standsOn", "wrongSide"]) rest.append(form.part(path + "." + n, schema.properties[n], state));
	for (const n of Object.keys(schema.properties)) {
		if (!["name", "panel", "kind", "stock", "place", "outside", "standsOn", "wrongSide"].includes(n)) rest.append(form.part(path + "." + n, schema.properties[n], state));
	}
	set.append(rest);
	/** @param {string} text @param {string} shown @param {number} x @param {number} y */
	const step = (text, shown, x, y) => {
		const b = make("button", { type: "button", id: "nudge-" + i + "-" + text }, make("span", { "aria-hidden": "true" }, shown), make("span", { className: "hidden" }, "Move " + text + " "), named());
		b.addEventListener("click", () => acts.nudge(i, x, y));
		return b;
	};
	const turn = form.button("Turn", path, () => acts.turn(i), " a quarter: ");
	const take = form.button("Take out", path, () => acts.take(i), " ");
	turn.append(named());
	take.append(named());
	set.append(make("div", { className: "buttons" }, turn, take,
		make("span", { className: "nudge", id: "fitting-" + i + "-nudge" }, step("left", "\u2190", -1, 0), step("up", "\u2191", 0, -1), step("down", "\u2193", 0, 1), step("right", "\u2192", 1, 0))));
	return set;
}

/** What a fitting is called in the form. @param {any} fitting @param {number} i */
export function titleOf(fitting, i) {
	const [name, type] = [at(fitting, "name"), at(fitting, "kind.kind.type") ?? at(fitting, "kind.type")];
	return [name, String(name).includes(type) ? "" : type].filter((t) => typeof t === "string" && t !== "").join(", ") || "fitting " + (i + 1);
}

/** A kind with all of its sizes turned a quarter. @param {any} kind @returns {any} */
export function turnedKind(kind) {
	if (typeof kind === "string") return turned(kind) ?? kind;
	if (!isPlain(kind)) return kind;
	return Object.fromEntries(Object.entries(kind).map(([k, v]) => [k, k === "name" || k === "type" ? v : turnedKind(v)]));
}

/** @param {Form} form @param {Plain} state */
function measured(form, state) {
	const length = { type: "string" };
	const box = section("measured", "The cover as it came out",
		make("p", { className: "hint" }, "Measure the covered case lying open, then say what it measures: the inside is derived again, and what changed is marked."),
		form.field("measured.width", length), form.field("measured.height", length));
	const wrong = make("div", { className: "wrong", id: "f-measured-wrong" });
	form.places.set("measured", wrong);
	box.append(wrong, more("measured-panels", "each board by itself", form.list("measured.panels", { type: "array", items: length }, state)));
	box.append(form.button("Forget what was measured", "measured", () => form.edit("measured", undefined, true), ""));
	return box;
}
