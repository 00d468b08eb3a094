// @ts-check
// What would do, as changes to the state: the words and the limit of a violation are
// read, and what they ask for is done to a copy. Whether that mends it is for the
// library to say: whoever offers a change asks it first.
import { at, isPlain, keys, put } from "./state.js";
import { millimetres } from "./handles.js";
import { withSide } from "./words.js";

/** @typedef {Record<string, any>} Plain */
/** A change that may do: what a button says, the state afterwards, and the field that it is about;
 * whole, if it is none where something else is wrong then.
 * @typedef {{say: string, state: Plain, path: string, whole?: boolean}} Way */
/** @typedef {{path: string, schema: Plain, side?: string}} Place */

/** How many changes are thought of for one violation: a fitting may go to any of eight panels. */
const most = 12;

/** Where a path leads that is written as in fittings[0].kind.picture.size.w, in lower
 * case; undefined where to no field.
 * @param {Plain} defs the definitions of the schema of the Spec @param {Plain} state @param {string} lower
 * @returns {Place | undefined} */
export function placeOf(defs, state, lower) {
	const [length, number] = [{ type: "string" }, { type: "integer" }];
	let path = /^(?:measured|batch)\b/.exec(lower)?.[0] ?? "spec";
	let schema = path === "spec" ? defs["folio.Spec"] : { type: "object", properties: path === "measured"
		? { width: length, height: length, panels: { type: "array", items: length } }
		: { ...defs["wire.Batch"]?.properties, copies: number, minutes: number, currency: length, others: { type: "array", items: { type: "object", properties: { copies: number, minutes: number } } } } };
	const rest = keys(path === "spec" ? lower : lower.slice(path.length));
	for (const [i, key] of rest.entries()) {
		if (typeof key === "number") {
			if (!schema.items) return undefined;
			[schema, path] = [schema.items, path + "[" + key + "]"];
		} else {
			const own = namesOf(schema, at(state, path)).find((n) => n.toLowerCase() === key);
			if (own === undefined) return schema.type === "string" && (key === "w" || key === "h") && i === rest.length - 1 ? { path, schema, side: key } : undefined;
			[schema, path] = [propertiesOf(schema, at(state, path))[own], path + "." + own];
		}
		if (schema.$ref) schema = defs[schema.$ref.replace("#/$defs/", "")];
	}
	return { path, schema };
}

/** @param {Plain} schema @param {unknown} value @returns {Plain} */
function propertiesOf(schema, value) {
	const of = schema.oneOf ? schema.oneOf.find((/** @type {Plain} */ o) => o.properties.type.const === at(value, "type")) : schema;
	return of?.properties ?? {};
}
/** @param {Plain} schema @param {unknown} value */
const namesOf = (schema, value) => Object.keys(propertiesOf(schema, value));

/** The changes that a violation, or a fault of the document, asks for: none where
 * its words leave a choice that only a maker can make.
 * @param {Plain} v @param {Plain} state
 * @param {Plain} defs the definitions of the schema of the Spec
 * @param {Plain} full the state with every default filled in
 * @param {Plain} [sound] the last state that could be made
 * @returns {Way[]} */
export function ways(v, state, defs, full, sound) {
	if (typeof v.pointer === "string") return ofFault(v, state, sound);
	const lower = typeof v.path === "string" ? v.path : "";
	const place = placeOf(defs, state, lower);
	if (!place) return [];
	const want = String(v.want ?? "");
	const all = [...instead(place, want, state), ...asked(v, place, want, state, full), ...moved(v, place, state, full, defs)];
	if (all.length === 0) all.push(...back(place.path, state, sound));
	return all.slice(0, most);
}

/** A fault of the document: what cannot be read is left out, or as it was before.
 * @param {Plain} v @param {Plain} state @param {Plain} [sound] @returns {Way[]} */
function ofFault(v, state, sound) {
	const path = v.pointer.slice(1).split("/").map((/** @type {string} */ k) => (/^\d+$/.test(k) ? "[" + k + "]" : "." + k.replaceAll("~1", "/").replaceAll("~0", "~"))).join("").slice(1);
	if (!/^(spec|measured|batch)\b/.test(path) || path === "spec") return [];
	// What may be thousands or decimals is one or the other.
	const now = at(state, path);
	const clear = /may be thousands or decimals/.test(String(v.want ?? "")) && typeof now === "string" ? [now.replaceAll(",", "."), now.replaceAll(",", "")] : [];
	const before = [...clear.flatMap((to) => made("Make it " + to, path, put(state, path, to))), ...back(path, state, sound)];
	if (before.length) return before;
	const words = /^one of (.*)$/.exec(String(v.want ?? ""));
	if (words && v.code !== "no-member" && typeof at(state, path) === "string") return words[1].split(/, | or /).slice(0, most).flatMap((w) => made("Make it " + w, path, put(state, path, w)));
	return made("Leave it out", path, put(state, path, undefined));
}

/** As it was when the folio could last be made.
 * @param {string} path @param {Plain} state @param {Plain} [sound] @returns {Way[]} */
function back(path, state, sound) {
	const was = at(sound, path);
	if (typeof was !== "string" && typeof was !== "number" || was === at(state, path)) return [];
	return made("Make it " + was + " again", path, put(state, path, was));
}

/** What was changed last, as it was when the folio could last be made: for what no
 * change of its own mends.
 * @param {string} path of what was changed last @param {Plain} state @param {Plain} [sound] @returns {Way[]} */
export function undone(path, state, sound) {
	const now = at(state, path);
	if (path === "" || typeof now === "object" || !sound) return [];
	const ways = at(sound, path) === undefined && now !== undefined ? made("Leave it out", path, put(state, path, undefined)) : back(path, state, sound);
	return ways.map((way) => ({ ...way, whole: true }));
}

/** @param {string} say @param {string} path @param {Plain | undefined} state @returns {Way[]} */
const made = (say, path, state) => (state && isPlain(state.spec) ? [{ say, state, path }] : []);

/** Words that ask for nothing at all. */
const nothing = /^(?:0|no|none|nothing|neither)(?:$|[ ,:])|, not both$|^one of the two$/;

/** "no rule and a width of at least 1/4 in": the field beside it.
 * @param {Place} place @param {string} want @param {Plain} state @returns {Way[]} */
function instead(place, want, state) {
	const m = /^no rule and a (\w+) of (.*)$/.exec(want);
	const to = m && limitIn(m[2]);
	if (!m || !to) return [];
	const path = place.path.replace(/\.\w+$/, "." + m[1]);
	return made("Make the " + m[1] + " " + to, path, put(put(state, place.path, undefined) ?? {}, path, to));
}

/** What the words ask of the field itself.
 * @param {Plain} v @param {Place} place @param {string} want @param {Plain} state @param {Plain} full @returns {Way[]} */
function asked(v, place, want, state, full) {
	const { path, schema } = place;
	const now = at(state, path);
	/** @param {any} to @param {string} [say] */
	const set = (to, say) => made(say ?? "Make it " + to, path, put(state, path, to));
	if (/^no rule and a /.test(want)) return [];
	if (schema.type === "array") return ofList(path, want, state);
	const bounded = v.bound === "at least" || v.bound === "at most";
	const without = now === undefined ? [] : set(undefined, place.side ? "Leave the size out" : "Leave it out");
	if (schema.enum) return [...(nothing.test(want) ? without : []), ...schema.enum.filter((/** @type {string} */ w) => w !== now && offers(want, w)).flatMap((/** @type {string} */ w) => set(w))];
	if (nothing.test(want) && (!bounded || /^0 or /.test(want) && v.bound === "at least")) return without;
	if (schema.type === "integer") return ofNumber(want, now).flatMap((n) => set(n));
	if (schema.type !== "string") return [];
	if (/the name of|that of a fitting on the same side/.test(want)) return [...names(path, want, state, full).filter((n) => n !== now).flatMap((n) => set(n)), ...placedAnew(path, state), ...sizedAnew(path, state), ...(/one of the stocks/.test(want) ? without : [])];
	if (/^a name\b/.test(want)) return set((typeof now === "string" && now.trim() !== "" ? now.trim() : "paper") + " 2");
	/** @type {Way[]} */
	const all = [];
	const limits = [limitIn(want), bounded ? at(v, "limit.text") : undefined, between(want, now), /^\s*-/.test(String(now)) ? String(now).replace("-", "").trim() : undefined];
	for (const to of new Set(limits)) {
		const mm = typeof to === "string" ? millimetres(to) ?? 1 : 0.001;
		if (mm !== 0 && Math.abs(mm) <= 0.011) continue; // the shortest length there is: nobody means that
		if (!place.side) all.push(...set(to));
		else {
			const whole = withSide(now ?? at(full, path), place.side, to);
			if (whole) all.push(...set(whole));
		}
	}
	return /^a length /.test(want) ? [...all, ...without] : all;
}

/** A fitting that is placed by another one, in the middle instead.
 * @param {string} path @param {Plain} state @returns {Way[]} */
function placedAnew(path, state) {
	const m = /^(.*\.)(across|along)Of$/.exec(path);
	return m ? made("Lay it in the middle", m[1] + m[2], put(put(state, path, undefined) ?? {}, m[1] + m[2], undefined)) : [];
}

/** A size by that of another fitting, its own instead. @param {string} path @param {Plain} state @returns {Way[]} */
function sizedAnew(path, state) {
	const m = /^(.*\.size\.[wh])\.fitting$/.exec(path);
	return m ? made("Leave this size out", m[1], put(state, m[1], undefined)) : [];
}

/** Whether words offer a word to choose. @param {string} want @param {string} word */
function offers(want, word) {
	const plain = want.replace(/^(?:no [\w ]+, or the form |nothing, or the form |one of )/, "");
	const i = (", " + plain + ",").search(new RegExp("(?:, |, or | or |\")" + word.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&") + "(?:,| or |\")"));
	return word !== "default" && i >= 0;
}

/** The length that words bound something by, as in "at most 5 in wide on the panel".
 * @param {string} text */
function limitIn(text) {
	const m = /\bat (?:least|most) (-?(?:\d[\d,]*(?:\.\d+)?)(?: \d+\/\d+|\/\d+)? (?:in|mm|m))\b/.exec(text);
	return m ? m[1].replaceAll(",", "") : undefined;
}

/** The nearer end of "a length from A to B". @param {string} want @param {unknown} now */
function between(want, now) {
	const m = /(?:from|between) (-?[\d ./]+ (?:in|mm|m)) (?:to|and) ([\d ./]+ (?:in|mm|m))\b/.exec(want);
	if (!m) return undefined;
	return typeof now === "string" && now.trim().startsWith("-") ? m[1] : m[2];
}

/** @param {string} want @param {unknown} now @returns {number[]} */
function ofNumber(want, now) {
	const read = (/** @type {string} */ text) => Number(text.replaceAll(",", ""));
	let m = /(-?\d[\d,]*) to (-?\d[\d,]*)/.exec(want);
	if (m) {
		const [low, high] = [read(m[1]), read(m[2])];
		return [Math.min(Math.max(typeof now === "number" ? now : low, low), high)];
	}
	m = /(?:at (?:least|most)|up to) (-?\d[\d,]*)/.exec(want);
	return m ? [read(m[1])] : [];
}

/** @param {string} path @param {string} want @param {Plain} state @returns {Way[]} */
function ofList(path, want, state) {
	const now = at(state, path);
	const sheet = /a sheet of at least (\S+(?: \d+\/\d+)?(?: (?:in|mm))? x \S+(?: \d+\/\d+)? (?:in|mm))/.exec(want);
	if (sheet) {
		const size = sheet[1];
		const one = { size, ...(/grain along the height/.test(want) ? { grain: "along the height" } : {}) };
		return made("Add a sheet of " + size, path, put(state, path + "[" + (Array.isArray(now) ? now.length : 0) + "]", one));
	}
	if (/^more sheets$|, which will do, or fewer pieces$/.test(want) && Array.isArray(now)) {
		return now.flatMap((s, i) => (isPlain(s) && typeof s.count === "number" && s.offcut !== true ? made("Take as many of " + s.size + " as are needed", path + "[" + i + "].count", put(state, path + "[" + i + "].count", undefined)) : []));
	}
	const few = /^at most (?:the first )?(\d[\d,]*)/.exec(want);
	const n = few ? Number(few[1].replaceAll(",", "")) : NaN;
	return Array.isArray(now) && n < now.length ? made("Keep the first " + n, path, put(state, path, now.slice(0, n))) : [];
}

/** The names that a field may hold. @param {string} path @param {string} want @param {Plain} state @param {Plain} full @returns {string[]} */
function names(path, want, state, full) {
	const text = (/** @type {unknown} */ n) => typeof n === "string" && n !== "";
	if (/one of the stocks/.test(want)) {
		const own = at(state, "spec.stocks");
		return [...(Array.isArray(own) ? own : []).map((s) => at(s, "name")), at(full, "spec.liner.name"), at(full, "spec.covering.name")].filter(text);
	}
	const fittings = at(state, "spec.fittings");
	const i = Number(/fittings\[(\d+)\]/.exec(path)?.[1] ?? -1);
	const others = (Array.isArray(fittings) ? fittings : []).map((f) => at(f, "name"));
	return (/before this one/.test(want) ? others.slice(0, Math.max(i, 0)).reverse() : others.filter((_, k) => k !== i)).filter(text);
}

/** A fitting that overlaps another lies where it is free, stands on it, or goes on another panel, as one that
 * is too large for its own may.
 * @param {Plain} v @param {Place} place @param {Plain} state @param {Plain} full @param {Plain} defs @returns {Way[]} */
function moved(v, place, state, full, defs) {
	const m = /^spec\.fittings\[\d+\]/.exec(place.path);
	if (!["overlaps", "too-wide", "too-tall"].includes(v.code) || !m) return [];
	const fitting = at(state, m[0]);
	const on = v.code === "overlaps" ? / with (.*)$/.exec(String(v.got))?.[1] : undefined;
	const named = (Array.isArray(at(state, "spec.fittings")) ? at(state, "spec.fittings") : []).some((/** @type {unknown} */ f) => at(f, "name") === on);
	const free = /such as (\w+) and (\w+) with an offset of (.+?) and (.+?), or /.exec(String(v.want ?? ""));
	const { panel, outside, ...bare } = isPlain(fitting) ? fitting : {};
	void outside;
	return [
		...(free ? made("Lay it " + free[3] + " from the " + free[1] + " and " + free[4] + " from the " + free[2], place.path, put(state, place.path, { across: free[1], along: free[2], offset: { x: free[3], y: free[4] } })) : []),
		...(named && on ? made("Stand it on " + on, m[0] + ".standsOn", put(state, m[0], { ...bare, standsOn: on })) : []),
		...["left cover", "right cover", "flap", "left door", "right door", "first panel", "second panel", "third panel"]
			.filter((p) => p !== (panel ?? at(full, m[0] + ".panel")) && defs["folio.Fitting"].properties.panel.enum.includes(p))
			// Not on to a panel that this row of boards has not got, nor on to what lies there.
			.flatMap((p) => made("Put it on the " + p, m[0] + ".panel", put(state, m[0] + ".panel", p))).map((way) => ({ ...way, whole: true })),
	];
}

/** A fitting that goes nowhere is left out: for what nothing else mends.
 * @param {Plain} v @param {Plain} state @returns {Way[]} */
export function leftOut(v, state) {
	const m = /^fittings\[(\d+)\]/.exec(String(v.path ?? ""));
	return m && (["too-wide", "too-tall", "overlaps"].includes(v.code) || /^to stand on something else/.test(String(v.want))) ? made("Leave this fitting out", "spec.fittings", put(state, "spec.fittings[" + m[1] + "]", undefined)) : [];
}

/** How well a change mends a violation, by the answer about the changed state: 0 not
 * at all, 1 it is gone but something else is wrong instead, 2 nothing new is wrong.
 * @param {Plain} answer @param {Plain} v @param {Plain} was the answer before @param {Way} way */
export function mends(answer, v, was, way) {
	if (!isPlain(answer.error)) return isPlain(answer.summary) ? 2 : 0;
	// A fitting that is left out gives its number to the next one, but not its name.
	const key = (/** @type {Plain} */ p) => p.code + " " + (p.pointer ?? (p.of ? p.path.replace(/^fittings\[\d+\]/, p.of) : p.path));
	const all = (/** @type {Plain} */ e) => [...(e.problems ?? []), ...(e.faults ?? [])].map(key);
	const faults = (/** @type {Plain} */ e) => e.faults?.length ?? 0;
	const [before, after] = [all(was.error), all(answer.error)];
	const count = (/** @type {string[]} */ keys) => keys.filter((k) => k === key(v)).length;
	// Of a document that cannot be read nobody knows yet whether the folio can be made.
	if (way.whole && count(after) > 0) return 0; // it is wrong there as it was here
	if (count(after) >= count(before) || faults(answer.error) > 0 && faults(was.error) === 0) return 0;
	if (after.every((k) => before.includes(k))) return 2;
	return way.whole ? 0 : 1;
}
