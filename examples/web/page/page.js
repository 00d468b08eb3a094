// @ts-check
// The page: what is typed goes into the state, the state to the library, and what
// that answers on to the page.
import { batchDocument, batchSection, currencyOf, madeOf, othersOf, sheetsAtHand, showBatch, titleOfOther, wrongWith } from "./batch.js";
import { Desk } from "./desk.js";
import { Drawings, bare, crop, grow, svgOf } from "./drawings.js";
import { Form, idOf, make } from "./form.js";
import { Handles, millimetres } from "./handles.js";
import { Pieces } from "./pieces.js";
import { leftOut, mends, placeOf, undone, ways } from "./mend.js";
import { kindsOf, sections, showStocks, titleOf, turnedKind } from "./sections.js";
import { Start } from "./start.js";
import { showVerdicts } from "./verdicts.js";
import { Past, at, documentOf, empty, first, fromAddress, fromFile, isPlain, longestFile, put, toAddress, toFile } from "./state.js";
import { label } from "./words.js";

/** @typedef {Record<string, any>} Plain */

/** @template {HTMLElement} T @param {string} id @returns {T} */
const byId = (id) => /** @type {T} */ (document.getElementById(id));

/** For what is shown at every keystroke: a small program, and all that the first view waits for. */
const quick = new Desk("planner.wasm");
/** For what comes a moment later: defaults, verdicts, drawings of folds. */
const steady = new Desk("boardwrap.wasm");
/** For what takes its time: proposals, layouts, print. */
const slow = new Desk("boardwrap.wasm");
// A way through the page, opened by itself, is no folio.
const read = location.hash !== "" && document.getElementById(location.hash.slice(1)) ? {} : fromAddress(location.hash);
const past = new Past(read.state ?? first());
/** What an address that could not be read is not written over by, before it is changed. */
let example = read.wrong ? past.now : undefined;
/** The summary of the last folio that could be made, and of which state. */
let latest = /** @type {Plain | undefined} */ (undefined);
let sound = /** @type {Plain | undefined} */ (undefined);
/** The state with every default filled in, as far as it was last known. */
let full = /** @type {Plain} */ ({});
let form = /** @type {Form | undefined} */ (undefined);
let batchSchema = /** @type {Plain} */ ({});

const drawings = new Drawings(byId("pictures"), () => work(), (piece, held) => pieces.pick(piece, held));
const pieces = new Pieces(byId("pieces"), byId("working"), (piece, fitting) => drawings.light(piece, fitting), drawPiece);
drawings.also(byId("laid"));
drawings.also(byId("strip"));
/** Where the drawings come after the form, a small one stays in view: as page.css has it. */
const narrow = matchMedia("(max-width: 60rem) and (min-height: 27rem)");
narrow.addEventListener("change", () => work());
/** Whether the form is above what is in view. */
let below = false;
/** Undo and redo stay at hand beside what stays in view. */
function keepAtHand() {
	const had = document.activeElement;
	if (!narrow.matches) byId("share").before(byId("undo"), byId("redo"));
	else byId(below ? "near" : "stay").append(byId("undo"), byId("redo"));
	if (had instanceof HTMLElement && had !== document.activeElement) had.focus({ preventScroll: true });
}
narrow.addEventListener("change", keepAtHand);
keepAtHand();
new IntersectionObserver(([e]) => {
	below = !e.isIntersecting && e.boundingClientRect.bottom <= 0;
	keepAtHand();
}).observe(/** @type {Element} */ (document.querySelector(".asked")));
// What is said in view is not said beneath the small drawing too.
new IntersectionObserver(([e]) => byId("strip").classList.toggle("said-above", e.isIntersecting)).observe(byId("told"));

// What was merely pointed at lies over nothing while something is typed.
byId("form").addEventListener("focusin", () => { if (pieces.held === undefined) pieces.close(); });

let drawingPiece = 0;
/** Draws a piece by itself, once the pointer rests on it. @param {number} piece @param {HTMLElement} to */
function drawPiece(piece, to) {
	clearTimeout(drawingPiece);
	drawingPiece = setTimeout(async () => {
		const { larger } = room;
		const answer = JSON.parse((await steady.ask([["pictures", documentOf(past.now), JSON.stringify({ version: 1, names: ["piece " + piece], fit: fitOf(110 / larger, 80 / larger) })]]))[0]);
		const svg = answer.pictures?.[0] && svgOf(answer.pictures[0].svg);
		if (!svg) return;
		grow(svg, larger);
		to.replaceChildren(svg);
	}, 120);
}

// ---- saying

let saying = 0;
/** Says something to everybody, also to those who cannot see it. @param {string} text */
function say(text) {
	clearTimeout(saying);
	byId("said").textContent = text;
	for (const also of document.querySelectorAll(".also-said")) also.textContent = text;
	captionStrip();
}
/** Says it once typing has paused. @param {string | (() => string)} text @param {() => void} [then] */
function sayLater(text, then) {
	clearTimeout(saying);
	saying = setTimeout(() => {
		say(typeof text === "string" ? text : text());
		then?.();
	}, 700);
}

let summing = 0;
/** Says what the folio has come to, once typing has paused and where that is something new.
 * @param {string} text */
function sumLater(text) {
	clearTimeout(summing);
	summing = setTimeout(() => {
		if (byId("sum").textContent !== text) byId("sum").textContent = text;
		captionStrip();
	}, 700);
}
/** Beneath the small drawing stands what was said last. */
function captionStrip() {
	const caption = byId("strip").querySelector("p");
	if (caption) caption.textContent = byId("said").textContent || summary();
}

// ---- the state

/** @param {string} path @param {any} value @param {boolean} done */
function edit(path, value, done) {
	let state = put(past.now, path, value) ?? { spec: {} };
	// A cover is measured both ways; what is not said yet is as it was planned.
	for (const [one, other, way] of [["measured.width", "measured.height", "height"], ["measured.height", "measured.width", "width"]]) {
		if (path === one && value !== undefined && at(state, other) === undefined && latest) state = put(state, other, latest.open[way]);
	}
	go(state, path, done);
}

/** What was changed last, if that was one field. */
let touched = "";

/** @param {Plain} state @param {string} about @param {boolean} done */
function go(state, about, done) {
	if (!isPlain(state.spec)) state = { ...state, spec: {} };
	const was = past.now;
	past.go(state, about);
	if (past.now !== was) touched = about;
	if (done) past.rest();
	// A field that is left says once more what it said: nothing is to be worked out,
	// and a button that is just being pressed stays where it is.
	changed(past.now !== was);
}

/** The fittings that are called in the form by what they are. */
let titled = /** @type {unknown} */ (undefined);
let writing = 0;
let written = location.hash;
/** @param {boolean} [anew] whether there is anything to work out */
function changed(anew = true) {
	for (const [own, other, can] of /** @type {[HTMLButtonElement, HTMLButtonElement, boolean][]} */ ([[byId("undo"), byId("redo"), past.canUndo], [byId("redo"), byId("undo"), past.canRedo]])) {
		// What cannot be pressed any more would lose the focus to nothing.
		const had = !can && own === document.activeElement;
		own.disabled = !can;
		if (!had) continue;
		other.disabled = false;
		other.focus();
	}
	const madeAnew = form?.show(past.now, (f, state) => [...sections(f, state, { add, take, turn, nudge }), batchSection(f, state, batchSchema, { lay: () => lay(true), sheets, aside, kept: () => byId("other-file").click(), swap, drop })]);
	start.sync(past.now.contents, past.now.anyForm, past.now.spec);
	const fittings = at(past.now, "spec.fittings");
	if (Array.isArray(fittings) && (madeAnew || fittings !== titled)) {
		titled = fittings;
		fittings.forEach((f, i) => {
			for (const el of document.querySelectorAll('#fitting-' + i + ' [data-title]')) if (el.textContent !== titleOf(f, i)) el.textContent = titleOf(f, i);
			document.getElementById("fitting-" + i + "-nudge")?.toggleAttribute("hidden", at(f, "outside") === true);
		});
	}
	othersOf(past.now).forEach((o, i) => {
		for (const el of document.querySelectorAll('[data-other="' + i + '"]')) if (el.textContent !== titleOfOther(o, i)) el.textContent = titleOfOther(o, i);
	});
	const forget = document.getElementById("f-measured-forget-what-was-measured");
	if (forget && past.now.measured === undefined && forget === document.activeElement) document.getElementById("f-measured-width")?.focus();
	forget?.toggleAttribute("hidden", past.now.measured === undefined);
	showUnits();
	if (!anew) return;
	say("");
	clearTimeout(writing);
	writing = setTimeout(write, 300); // browsers let an address change so often only
	layLater();
	work();
}

/** Writes the state into the address. */
function write() {
	clearTimeout(writing);
	if (past.now === example) return;
	example = undefined;
	written = toAddress(past.now);
	if (written === "") say("This folio is too long for an address: keep it as JSON.");
	else if (written !== location.hash) history.replaceState(null, "", written);
}

/** @param {number} by */
function step(by) {
	const was = past.now;
	past.step(by);
	touched = "";
	changed(past.now !== was);
	form?.fill(past.now, true); // also the field that is typed in
	if (past.now === was) say(by < 0 ? "There is nothing to undo." : "There is nothing to redo.");
	else say(by < 0 ? "Undone." : "Redone.");
}

/** Adds a fitting to a panel on which it goes, a free one first. @param {string} word */
async function add(word) {
	const kind = form && kindsOf(form).find((k) => k.word === word)?.kind;
	if (!kind) return;
	const list = at(past.now, "spec.fittings");
	const i = Array.isArray(list) ? list.length : 0;
	const size = metric() ? "75 x 100 mm" : "3 x 4 in";
	const inner = kind.kind
		? { ...kind, kind: { ...kind.kind, content: { size } } }
		: word === "ornament" ? { ...kind, size: metric() ? "20 x 20 mm" : "3/4 x 3/4 in", thickness: metric() ? "1 mm" : "1/32 in" } : { ...kind, picture: { size } };
	// A cover that is free; on a row without covers its main panel, and then what is free.
	const taken = (Array.isArray(list) ? list : []).map((f) => at(f, "panel"));
	/** @type {string[]} */
	const panels = (latest?.boards ?? ["left cover", "right cover"]).filter((/** @type {string} */ role) => !/spine/.test(role));
	if (panels.includes("left cover")) taken.push(...taken.includes(undefined) ? ["right cover"] : []);
	else panels.unshift("main panel");
	const free = panels.filter((p) => !taken.includes(p));
	const was = past.now;
	const all = [...free, ...free.length ? [] : panels.slice(-1)].map((panel) => ({ panel, state: put(was, "spec.fittings[" + i + "]", { panel, kind: inner }) }));
	// It is there at once, to be named, and goes to a better panel a moment later: one change for undo.
	let goes = all[0];
	go(goes.state, "add " + i, false);
	byId("f-spec-fittings-" + i + "-name")?.focus();
	const answers = await quick.ask(all.map(({ state }) => ["summary", documentOf(state)]));
	if (past.now === goes.state) {
		const bad = answers.map((text) => JSON.parse(text).error).map((error) => (error ? problemCount(error) : 0));
		goes = all[bad.indexOf(Math.min(...bad))];
		go(goes.state, "add " + i, true);
	}
	say("Added: " + word + ", on the " + goes.panel + ".");
}

/** Takes a fitting out. @param {number} i */
function take(i) {
	const title = titleOf(at(past.now, "spec.fittings[" + i + "]"), i);
	const left = at(past.now, "spec.fittings").length - 1;
	byId(left > 0 ? "fitting-" + Math.min(i, left - 1) : "add-kind").focus();
	go(put(past.now, "spec.fittings[" + i + "]", undefined) ?? {}, "", true);
	say("Taken out: " + title + ".");
}

/** Turns a fitting a quarter. @param {number} i */
function turn(i) {
	const was = past.now;
	const path = "spec.fittings[" + i + "]";
	go(put(past.now, path + ".kind", turnedKind(at(past.now, path + ".kind"))) ?? {}, "", true);
	const title = titleOf(at(past.now, path), i);
	say(past.now === was ? title + " has no size of its own that could be turned." : "Turned a quarter: " + title + ".");
}

/** Moves a fitting by a step of the ruler. @param {number} i @param {number} x @param {number} y */
function nudge(i, x, y) {
	move(i, x * stepOf(), y * stepOf(), false);
}
/** The least step by which a fitting is moved, in mm. */
const stepOf = () => (metric() ? 1 : 25.4 / 16);

// ---- what takes its time

const start = new Start(byId("start"), {
	ask: async (contents, anyForm) => {
		const [request] = await slow.ask([["request", JSON.stringify({ version: 1, contents, anyForm }), documentOf({ spec: past.now.spec })]]);
		if (JSON.parse(request).error) return JSON.parse(request);
		const answer = JSON.parse((await slow.ask([["proposals", request]]))[0]);
		const proposals = answer.proposals?.proposals ?? [];
		const drawn = await slow.ask(proposals.map((p) => ["pictures", documentOf({ spec: p.spec }), '{"version":1,"names":["inside"]}']));
		// Names within a drawing tell it from the others of the page.
		proposals.forEach((p, i) => { p.drawn = JSON.parse(drawn[i]).pictures?.[0]?.svg.replaceAll("inside-", "proposal-" + i + "-"); });
		return answer;
	},
	stop: () => slow.stop("Stopped."),
	listed: (v) => listed(v, false),
	pick: (p) => {
		const { measured, ...rest } = past.now;
		void measured; // was that of another cover
		go({ ...rest, spec: { ...p.spec, ...(at(past.now, "spec.title") ? { title: at(past.now, "spec.title") } : {}) } }, "", true);
		byId("pictures-head").tabIndex = -1;
		byId("pictures-head").focus(); // the drawings of what was taken
		say("Taken: " + p.aim + ". Everything in it can be changed.");
	},
	say,
	keep: (what, value) => go(put(past.now, what, value || undefined) ?? past.now, what, true),
});

/** What was last laid out, as a document. */
let laidOf = "";
/** The room for which its sheets were drawn. @type {import("./drawings.js").Room | undefined} */
let laidFor;
let relaying = 0;
/** What was wrong with it, and the state that could last be laid out. @type {Plain[]} */
let laidWrong = [];
let soundLaid = /** @type {Plain | undefined} */ (undefined);

/** @param {boolean} asked whether somebody asked for it just now */
async function lay(asked) {
	clearTimeout(relaying);
	const box = byId("laid");
	byId("laid-part").hidden = false;
	box.setAttribute("aria-busy", "true");
	if (asked) say("Laying it out.");
	const state = past.now;
	const text = batchDocument(state);
	[laidOf, laidFor] = [text, room];
	try {
		const [answered] = await slow.ask([["batch", text, sheetsWanted(laidFor)]]);
		if (text !== laidOf) return; // something newer is under way
		const answer = JSON.parse(answered);
		laidWrong = gathered({ problems: wrongWith(answer, state) });
		if (laidWrong.length === 0) soundLaid = state;
		showProblems(amissNow);
		if (amissNow) offerLater(past.now, amissNow);
		showBatch(box, answer, laidWrong.map((v) => listed(v, v.path === "" || !form?.placeOf(v.path))), othersOf(state).length > 0, madeOf(state), laidFor.larger, paper);
		for (const svg of box.querySelectorAll("svg")) drawings.lightIn(svg);
		if (asked) {
			const n = laidWrong.length;
			const none = at(answer, "laid.layout.layout.materials") ?? [];
			say(n === 0 ? (none.length ? "Laid out." : "Nothing is laid out: no sheets are at hand.") : "It cannot be laid out as it is: " + n + (n === 1 ? " thing" : " things") + " must be changed.");
			byId("laid-head").focus();
		}
	} catch (why) {
		say(why instanceof Error ? why.message : String(why));
	}
	box.removeAttribute("aria-busy");
}

// ---- other folios, laid out with this one

/** A folio as one of the others, without what is beside it. @param {Plain} state @returns {Plain} */
function alone({ spec, measured, batch }) {
	const all = { spec, measured, copies: at(batch, "copies"), minutes: at(batch, "minutes") };
	return Object.fromEntries(Object.entries(all).filter(([, v]) => v !== undefined));
}

/** A state with another folio to work on, and with others beside it.
 * @param {Plain} one @param {unknown[]} others */
function workedOn(one, others) {
	let state = { ...past.now, spec: isPlain(one.spec) ? one.spec : {} };
	for (const [path, v] of /** @type {[string, any][]} */ ([["measured", one.measured], ["batch.copies", one.copies], ["batch.minutes", one.minutes], ["batch.others", others.length ? others : undefined]])) state = put(state, path, v) ?? state;
	return state;
}

/** Sets the folio aside, and goes on with a copy of it or with an empty one. @param {boolean} anew */
function aside(anew) {
	const was = alone(past.now);
	const named = titleOfOther(was, -1);
	go(workedOn(anew ? empty(metric()) : { spec: was.spec }, [...othersOf(past.now), was]), "", true);
	byId("f-spec-title").focus();
	say("Set aside: " + named + (anew ? ". This is an empty one." : ". This is a copy of it."));
}

/** Works on another folio, and sets this one aside in its place. @param {number} i */
function swap(i) {
	const others = othersOf(past.now).slice();
	const one = /** @type {Plain} */ (isPlain(others[i]) ? others[i] : {});
	others[i] = alone(past.now);
	let state = workedOn(one, others);
	// What is used up goes by the order of the folios.
	const supplies = at(state, "batch.costs.supplies");
	if (Array.isArray(supplies)) {
		supplies.forEach((s, k) => {
			const amounts = at(s, "amounts");
			if (!Array.isArray(amounts) || amounts.length < i + 2) return;
			const next = amounts.slice();
			[next[0], next[i + 1]] = [next[i + 1], next[0]];
			state = put(state, "batch.costs.supplies[" + k + "].amounts", next) ?? state;
		});
	}
	go(state, "", true);
	byId("f-spec-title").focus();
	say("Worked on: " + titleOfOther(one, i) + ". The other one is set aside.");
}

/** Takes another folio out. @param {number} i */
function drop(i) {
	const named = titleOfOther(othersOf(past.now)[i], i);
	(document.getElementById("swap-" + (i > 0 ? i - 1 : 1)) ?? byId("aside-copy")).focus();
	go(put(past.now, "batch.others[" + i + "]", undefined) ?? past.now, "", true);
	say("Taken out: " + named + ".");
}

/** Reads a file that was asked for. @param {HTMLInputElement} input @returns {Promise<{name: string, state?: Plain, wrong?: string} | undefined>} */
async function fileOf(input) {
	const [one] = input.files ?? [];
	if (!one) return undefined;
	const read = one.size > longestFile ? { wrong: "The file is too long to hold a folio." } : fromFile(await one.text());
	input.value = ""; // the same one may be opened again
	return { name: one.name, ...read };
}

/** Lays it out anew once typing has paused, for as long as a layout is shown. */
function layLater() {
	if (byId("laid-part").hidden || laidOf === "" || batchDocument(past.now) === laidOf && laidFor && sheetsWanted(laidFor) === sheetsWanted(room)) return;
	byId("laid").setAttribute("aria-busy", "true");
	clearTimeout(relaying);
	relaying = setTimeout(() => lay(false), 1000);
}

async function sheets() {
	const answer = JSON.parse((await steady.ask([["spec", documentOf(past.now)]]))[0]);
	const all = sheetsAtHand(past.now, answer.spec ?? {});
	if (all.length === 0) say("No sheets at hand are given above.");
	else {
		edit("batch.materials", all, true);
		say("Begun from the sheets at hand of " + all.map((m) => m.name).join(", ") + ".");
	}
}

// ---- moving

const moves = new Handles(move, (fitting) => {
	const of = latest?.fittings?.find((f) => f.index === fitting);
	if (of) pieces.pick(of.pieces?.[0], false, narrow.matches); // there its working would lie over what is moved
}, stepOf, (fitting) => byId("f-spec-fittings-" + fitting + "-name").focus());

let moving = Promise.resolve();
/** Moves a fitting by so many mm to the right and down, on to the ruler.
 * @param {number} i @param {number} x @param {number} y @param {boolean} dragged */
function move(i, x, y, dragged) {
	moving = moving.then(async () => {
		const state = past.now;
		const [text] = await steady.ask([["tidy", documentOf(state)]]);
		const tidy = JSON.parse(text);
		if (!tidy.spec || past.now !== state) return;
		const place = at(tidy.spec, "fittings[" + i + "].place") ?? {};
		const step = stepOf();
		const length = (/** @type {number} */ n) => (metric() ? n + " mm" : inches(n));
		let next = state;
		const where = [];
		// An offset is away from the edge, or from the fitting, that it is lined up with.
		for (const [name, by, back, way] of /** @type {[string, number, boolean, [string, string]][]} */ ([
			["x", x, ["right", "before"].includes(place.across), ["left", "right"]], ["y", y, ["tail", "before"].includes(place.along), ["up", "down"]]])) {
			const was = millimetres(at(place, "offset." + name));
			if (was === undefined) return;
			const sense = back ? -1 : 1;
			const steps = by === 0 ? Math.round(was / step) : Math.round((was + sense * by) / step);
			if (steps !== 0) where.push(length(Math.abs(steps)) + " " + way[sense * steps > 0 ? 1 : 0]);
			if (by !== 0) next = put(next, "spec.fittings[" + i + "].place.offset." + name, steps === 0 ? undefined : length(steps)) ?? next;
		}
		if (next === state) return;
		const between = next;
		const free = dragged ? await withinEdges(state, next, "fittings[" + i + "].place.offset.") : next;
		if (past.now !== state) return;
		next = free;
		go(next, "move " + i, dragged);
		sayLater(titleOf(at(next, "spec.fittings[" + i + "]"), i) + ": moved " + (free !== between ? "as far as it goes." : where.length ? where.join(" and ") + " of where it would lie." : "to where it would lie."));
	});
}

/** What was let go beyond an edge lies at that edge, if it can.
 * @param {Plain} was @param {Plain} next @param {string} path of what was moved, from the Spec on */
async function withinEdges(was, next, path) {
	const wrong = async (/** @type {Plain} */ state) => JSON.parse((await quick.ask([["summary", documentOf(state)]]))[0]).error;
	const error = await wrong(next);
	if (!error) return next;
	let state = next;
	for (const v of gathered(error)) {
		const limit = at(v, "limit.text");
		if (String(v.path).startsWith(path) && ["at least", "at most"].includes(v.bound) && typeof limit === "string") state = put(state, "spec." + v.path, limit) ?? state;
	}
	if (state === next) return next;
	const [left, before] = [await wrong(state), await wrong(was)];
	return (left ? problemCount(left) : 0) <= (before ? problemCount(before) : 0) ? state : next;
}

/** So many sixteenths as a length. @param {number} n */
function inches(n) {
	const whole = Math.trunc(Math.abs(n) / 16);
	let [a, b] = [Math.abs(n) % 16, 16];
	while (a && a % 2 === 0) [a, b] = [a / 2, b / 2];
	return (n < 0 ? "-" : "") + (whole || !a ? whole + (a ? " " : "") : "") + (a ? a + "/" + b : "") + " in";
}

// ---- units

function metric() {
	const ruler = at(past.now, "spec.rulers.main");
	return typeof ruler === "string" && /mm/.test(ruler);
}
/** What asks for a unit. @type {HTMLInputElement[]} */
const unitsAsked = [...byId("units").querySelectorAll("input")];
/** The unit that is asked for, while everything is being written in it. */
let unitAsked = "";
const unitShown = () => unitAsked || (metric() ? "mm" : "in");
function showUnits() {
	for (const r of unitsAsked) r.checked = r.value === unitShown();
	if (form) form.unit = unitShown();
	start.example(metric());
}
/** Writes everything in the other unit, exactly, also what is typed meanwhile. @param {string} unit */
async function switchUnits(unit) {
	unitAsked = unit;
	showUnits();
	let was, state, tidy;
	try {
		do {
			was = past.now;
			state = put(was, "spec.rulers.main", unit === "mm" ? "1 mm" : undefined) ?? {};
			[tidy] = (await steady.ask([["tidy", documentOf({ ...state, spec: state.spec ?? {} })]])).map((t) => JSON.parse(t));
			if (unitAsked !== unit) return; // back again
		} while (past.now !== was);
	} finally {
		if (unitAsked === unit) unitAsked = "";
		showUnits();
	}
	go(tidy.spec ? { ...state, spec: tidy.spec } : state, "", true);
	say("Lengths are in " + (unit === "mm" ? "millimetres." : "inches."));
}

// ---- working it out

let busy = false;
let again = false;
/** How long the last answers took, for whoever measures. @type {number[]} */
const took = [];
let since = 0;

/** Asks the library about the state; while it works only the latest state waits. */
async function work() {
	since ||= performance.now();
	if (busy) { again = true; return; }
	busy = true;
	again = false;
	const state = past.now;
	const began = since;
	since = 0;
	try {
		const text = documentOf(state);
		const made = { of: text, room };
		const list = drawings.all.size === 0;
		const names = list ? ["inside", "closed"] : drawings.seen().filter((n) => !folds(n));
		const measured = at(state, "measured") !== undefined;
		const [summaryText, pictureText, smallText, beforeText] = await quick.ask([
			["summary", text],
			["pictures", text, wanted(names, list, room)],
			["pictures", text, narrow.matches ? '{"version":1,"names":["inside"],"fit":"100 x 100 mm"}' : '{"version":1,"names":[]}'],
			...(measured ? [/** @type {[string, string]} */ (["summary", documentOf({ spec: state.spec })])] : []),
		]);
		show(state, JSON.parse(summaryText), JSON.parse(pictureText), measured ? JSON.parse(beforeText).summary : undefined, made);
		showStrip(JSON.parse(smallText));
		drawFolds();
	} catch (why) {
		say("The program has stopped: " + why);
	}
	took.push(performance.now() - began);
	if (took.length > 2000) took.shift();
	busy = false;
	if (again) work();
}

/** What drawings are made for: known without laying out the page. */
let room = roomNow();
let resizing = 0;
/** Looks whether there is another room, a phone that was turned, a window that was drawn
 * wider, larger text: then what is drawn fits it anew. */
function lookRound() {
	const next = roomNow();
	if (Math.abs(next.width - room.width) < 8 && next.larger === room.larger) return;
	room = next;
	clearTimeout(resizing);
	resizing = setTimeout(() => {
		work();
		layLater();
	}, 150);
}
const rooms = new ResizeObserver(lookRound);
rooms.observe(byId("pictures"));
rooms.observe(/** @type {Element} */ (document.querySelector("h1"))); // its height follows the size of text where no width does

/** @returns {import("./drawings.js").Room} */
function roomNow() {
	return { width: byId("pictures").clientWidth, larger: Math.max(1, parseFloat(getComputedStyle(document.documentElement).fontSize) / 16 || 1) };
}

/** Which pictures are wanted, no larger than there is room for.
 * @param {string[]} names @param {boolean} list @param {import("./drawings.js").Room} room */
function wanted(names, list, { width, larger }) {
	const mm = Math.max(60, Math.min(220, width / larger / 96 * 25.4 - 4));
	return JSON.stringify({ version: 1, names, list, fit: fitOf(mm, mm * 1.2) });
}

/** The room of a picture, in mm. @param {number} w @param {number} h */
function fitOf(w, h) { return w.toFixed(1) + " x " + h.toFixed(1) + " mm"; }

/** How the sheets of a layout are wanted. @param {import("./drawings.js").Room} room */
function sheetsWanted({ width, larger }) {
	const mm = Math.max(60, Math.min(100, (width - 18) / larger / 96 * 25.4)); // less the edge of its figure
	return JSON.stringify({ version: 1, fit: fitOf(mm, mm) });
}

/** Keeps an element in view while drawings arrive and move it: until the reader does
 * something, or for some seconds. @param {HTMLElement} to */
function follow(to) {
	const moved = new ResizeObserver(() => to.scrollIntoView());
	for (const part of document.querySelectorAll("main, form, section, #pictures")) moved.observe(part);
	const ends = ["keydown", "pointerdown", "wheel", "touchmove"];
	const end = () => {
		moved.disconnect();
		for (const what of ends) removeEventListener(what, end, true);
	};
	for (const what of ends) addEventListener(what, end, true);
	setTimeout(end, 4000);
}

let stripText = "";
/** The small drawing that stays in view: shapes without their dimensions, and what
 * the whole measures in words. @param {Plain} drawn */
function showStrip(drawn) {
	const box = byId("strip");
	box.classList.toggle("old", drawn.pictures === undefined);
	// Names within it tell it from the drawing of the same things below.
	const text = drawn.pictures?.[0]?.svg.replaceAll("inside-", "strip-");
	const svg = text !== stripText && text && svgOf(text);
	if (!svg) return;
	stripText = text;
	bare(svg);
	box.querySelector("svg")?.remove();
	box.prepend(svg);
	if (!box.querySelector("p")) box.append(make("p"));
	captionStrip();
	if (svg instanceof SVGSVGElement) crop(svg);
	drawings.lightIn(svg);
}

/** Whether a picture is of folds, which the small program does not draw. @param {string} name */
const folds = (name) => name.includes(" ");

let folding = false;
/** What drawings of folds were asked for last, and of what. */
let foldsOf = /** @type {Plain} */ ({});
/** Draws folds that are seen, of the latest state and for the latest room only. */
async function drawFolds() {
	const made = { of: documentOf(past.now), room };
	const late = drawings.late(made.of, room);
	const names = drawings.seen().filter((n) => folds(n) && late.includes(n));
	const asked = { ...made, names: names.join() };
	// What was asked for and did not come is not asked for again and again.
	if (folding || names.length === 0 || Object.entries(asked).every(([k, v]) => foldsOf[k] === v)) return;
	folding = true;
	foldsOf = asked;
	try {
		const answer = JSON.parse((await steady.ask([["pictures", made.of, wanted(names, false, made.room)]]))[0]);
		if (Array.isArray(answer.pictures)) drawings.show(answer.pictures, made);
	} catch (why) {
		say("The program has stopped: " + why);
	}
	folding = false;
	drawFolds();
}

/** @param {Plain} state @param {Plain} answer @param {Plain} drawn
 * @param {Plain | undefined} before the plan before it was refitted
 * @param {import("./drawings.js").Made} made what was drawn of */
function show(state, answer, drawn, before, made) {
	restLater();
	if (isPlain(answer.summary)) {
		const plan = answer.summary;
		latest = plan;
		sound = state;
		byId("drawn").classList.remove("none");
		byId("none").hidden = true;
		byId("titled").textContent = typeof plan.title === "string" ? plan.title : "";
		document.title = (typeof plan.title === "string" && plan.title !== "" ? plan.title + " – " : "") + "a folio worked out";
		if (Array.isArray(drawn.names)) drawings.list(pages(drawn.names));
		drawings.old(false);
		byId("old").hidden = true;
		if (Array.isArray(drawn.pictures)) drawings.show(drawn.pictures, made);
		pieces.show(plan, before);
		drawings.mark(pieces.changed());
		placeLater();
		showWarnings(plan);
		showSteps();
		form?.panels(plan.boards);
	} else {
		drawings.old(true);
		byId("old").hidden = latest === undefined;
		byId("none").hidden = latest !== undefined;
	}
	showProblems(answer.error);
	if (answer.error) {
		offerLater(state, answer.error);
		wrong = true;
		sayLater(() => wrongIn(answer.error), () => { amiss = true; });
	} else {
		// What was wrong a moment ago is not said any more.
		if (wrong) clearTimeout(saying);
		if (amiss && byId("said").textContent === "") sayLater("It can be made.");
		amiss = wrong = false;
	}
	sumLater(answer.error ? "" : summary() + (before ? refitted() : ""));
}

/** Whether it was said that something must be changed. */
let amiss = false;
/** Whether something is to be changed, said or not. */
let wrong = false;

/** What a refit has changed, in words. */
function refitted() {
	const names = pieces.changed().map((i) => pieces.pieces[i].name);
	return " Refitted to the cover as measured: " + (names.length ? names.join(", ") + (names.length === 1 ? " is" : " are") + " of another size now." : "no piece is of another size.");
}

/** The names of drawings that are of another folio or for another room than there is now. */
function lateNow() {
	lookRound();
	return drawings.late(documentOf(past.now), room);
}

let placing = false;
/** Puts the handles over the fittings once their drawing is laid out, which it is for a
 * frame in any case: to ask sooner where it lies would lay out the page at every answer. */
function placeLater() {
	if (placing) return;
	placing = true;
	requestAnimationFrame(() => {
		placing = false;
		const inside = drawings.all.get("inside");
		if (inside && latest) moves.place(inside.view, latest.fittings ?? []);
	});
}

/** The pictures that the page shows one below the other. @param {string[]} names */
const pages = (names) => names.filter((n) => !n.startsWith("piece"));

let resting = 0;
/** Asks for what can wait until typing pauses: the defaults that fields show, and
 * which pictures there are. */
function restLater() {
	clearTimeout(resting);
	resting = setTimeout(() => rest().catch((why) => say("What takes the larger program cannot be shown: " + why)), 200);
}

async function rest() {
	const text = documentOf(past.now);
	const [spec, list] = (await steady.ask([["spec", text], ["pictures", text, '{"version":1,"names":[],"list":true}']])).map((t) => JSON.parse(t));
	if (isPlain(spec.spec)) {
		full = { spec: spec.spec };
		form?.hint({ ...full, batch: { copies: 1, currency: currencyOf(past.now), others: othersOf(past.now).map(() => ({ copies: 1 })) } });
		showStocks(full);
	}
	if (Array.isArray(list.names)) drawings.list(pages(list.names));
	if (!Array.isArray(list.pictures)) return;
	const [verdicts] = await steady.ask([["verdicts", text]]);
	if (text === documentOf(past.now)) showVerdicts(byId("verdicts"), JSON.parse(verdicts), at(past.now, "spec.rulers.main"));
	const made = { of: text, room };
	for (const name of drawings.late(text, room)) {
		if (!drawings.late(text, room).includes(name)) continue; // it has come into view meanwhile
		const [one] = await steady.ask([["pictures", text, wanted([name], false, made.room)]]);
		if (text !== documentOf(past.now) || made.room !== room) return; // which is asked for anew
		const { pictures } = JSON.parse(one);
		if (Array.isArray(pictures)) drawings.show(pictures, made);
		if (name === "inside") placeLater();
	}
}

function summary() {
	const plan = latest;
	if (!plan) return "";
	const liner = plan.pieces.find((p) => p.name === "liner");
	const { open, closed } = plan;
	return "Open " + open.width + " x " + open.height
		+ (liner ? "; liner " + liner.width + " x " + liner.height : "")
		+ (closed ? "; closed " + closed.width + " x " + closed.height + ", " + closed.thickness + " thick" : "") + ".";
}

/** @param {Plain} p */
function showWarnings(p) {
	const list = p.warnings ?? [];
	byId("warnings").hidden = list.length === 0;
	byId("warnings-list").replaceChildren(...list.map((w) => make("li", {}, w)));
}

/** @param {Plain} error */
const problemCount = (error) => gathered(error).length + (error.more ?? 0) || 1;

/** What is wrong; a size that is not said yet, or wrong on both of its sides alike, is wrong once.
 * @param {Plain} error @returns {Plain[]} */
function gathered(error) {
	const all = [...(error.problems ?? []), ...(error.faults ?? [])];
	const told = new Set();
	return all.filter((v) => {
		const side = /^(.*)\.[wh]$/.exec(String(v.path));
		const once = unsaidSize(v) || side && [side[1], v.code, v.got, v.want].join("\n");
		if (!once) return true;
		if (told.has(once)) return false;
		return told.add(once);
	});
}

/** Where a size is that is wrong because nothing is said there, else "". @param {Plain} v */
function unsaidSize(v) {
	const place = form && v.code === "not-positive" && placeOf(form.defs, past.now, String(v.path).toLowerCase());
	return place && place.side && at(past.now, place.path) === undefined ? place.path : "";
}

/** What is wrong with the folio, as it was answered last. */
let amissNow = /** @type {Plain | undefined} */ (undefined);

/** @param {Plain | undefined} error */
function showProblems(error) {
	amissNow = error;
	const all = error ? gathered(error) : [];
	if (error && all.length === 0) all.push({ path: "", got: error.message, want: "" });
	// What is wrong with the batch is said at its fields too, for as long as it is the one that was laid out.
	const laid = laidWrong.length > 0 && laidOf === batchDocument(past.now) ? laidWrong.filter((v) => v.path.startsWith("batch")) : [];
	offered.clear();
	if (all.length < 2) byId("problems-mend").replaceChildren();
	const loose = form?.wrong([...all, ...laid], problem) ?? [];
	const box = byId("problems");
	box.hidden = all.length === 0;
	byId("problems-list").replaceChildren(...all.map((v) => listed(v, loose.includes(v))));
	if (laid.length) offerLaid(past.now, laid);
}

/** A violation in a list away from its field: a way to that, if it has one.
 * @param {Plain} v @param {boolean} loose */
function listed(v, loose) {
	if (loose) return make("li", {}, problem(v));
	const place = form?.placeOf(v.path);
	const link = make("a", { href: "#" + (place?.id ?? "") }, atField(v, place));
	link.addEventListener("click", (e) => {
		e.preventDefault();
		const el = place && document.getElementById(place.id.replace(/-wrong$/, ""));
		for (let d = place?.closest("details"); d; d = d.parentElement?.closest("details")) d.open = true;
		(el ?? place)?.scrollIntoView({ block: "center" });
		// What is wrong with several fields is said after the first of them.
		(el ?? place?.previousElementSibling?.querySelector("input, select") ?? place?.closest("fieldset, section")?.querySelector("input, select, button:not(.mend)"))?.focus();
	});
	return make("li", {}, link);
}

/** Where buttons go for what is wrong. @type {Map<Plain, HTMLElement[]>} */
const offered = new Map();

/** One violation in words, with room for buttons that do what would do.
 * @param {Plain} v */
function problem(v) {
	const room = make("span", { className: "mends" });
	offered.set(v, [...(offered.get(v) ?? []), room]);
	return make("p", { className: "problem" }, make("span", { className: "words" }, wordsOf(v) + "."), " ", room);
}

/** How much must be changed, and where it begins, unless that is where the focus is.
 * @param {Plain} error */
function wrongIn(error) {
	const n = problemCount(error);
	const [first] = gathered(error);
	const place = first && form?.placeOf(first.path);
	const here = place?.id === document.activeElement?.id + "-wrong";
	const name = here ? "" : [first?.of, fieldOf(first ?? {}, place)?.toLowerCase()].filter(Boolean).join(", ");
	return n + (n === 1 ? " thing" : " things") + " must be changed" + (name && (n === 1 ? ": " : ", first ") + name) + ".";
}

/** What the field of a violation is called. @param {Plain} v @param {HTMLElement | undefined} place */
function fieldOf(v, place) {
	const own = place?.parentElement?.classList.contains("field") && place.parentElement.querySelector("label")?.textContent;
	return own || (place && !v.of && /^[a-z]\w*$/.test(v.path) ? label("spec." + v.path) : undefined);
}

/** A violation in words, away from its field: which one it is comes first.
 * @param {Plain} v @param {HTMLElement | undefined} place */
function atField(v, place) {
	const name = fieldOf(v, place);
	const words = wordsOf(v);
	if (!name) return words;
	const of = v.of && words.startsWith(v.of + ": ") ? v.of : "";
	return of ? of + ", " + name.charAt(0).toLowerCase() + name.slice(1) + words.slice(of.length) : name + ": " + words;
}

/** A length and a size, as they are written here. */
const such = () => (metric() ? ["146 mm", "150 x 200 mm"] : ["5 3/4 in", "6 x 8 in"]);

/** A violation in words. @param {Plain} v */
function wordsOf(v) {
	const unread = v.code === "bad-text" && / \(at byte \d+: (.*)\)$/.exec(v.want);
	if (unread) {
		const sized = form && /a width and a height/.test(placeOf(form.defs, past.now, String(v.path).toLowerCase())?.schema.description ?? "");
		return v.got + " is not read: " + unread[1] + (/, as in |: write /.test(unread[1]) ? "" : ", as in " + such()[sized ? 1 : 0]);
	}
	if (unsaidSize(v) !== "") return (v.of ? v.of + ": " : "") + "nothing is said here yet; want a width and a height, as in " + such()[1];
	// What should be a number is told as it was typed.
	const typed = v.got === "a text" && form && at(past.now, placeOf(form.defs, past.now, String(v.path).toLowerCase())?.path ?? "");
	const got = typeof typed === "string" ? JSON.stringify(typed.slice(0, 64)) : v.got;
	return (v.of ? v.of + ": " : "") + got + (v.want ? "; want " + v.want : "");
}

let offering = 0;
/** Offers to do what would do, once typing pauses. @param {Plain} state @param {Plain} error */
function offerLater(state, error) {
	clearTimeout(offering);
	offering = setTimeout(() => offer(state, error), 150);
}

/** How long what would do is tried, in ms: where very much is wrong, the first things get their buttons. */
const patience = 5000;

/** Tries what would do, and has a button for all that does.
 * @param {Plain} state @param {Plain} error */
async function offer(state, error) {
	if (!form) return;
	const [spec] = (await steady.ask([["spec", documentOf(state)]])).map((t) => JSON.parse(t));
	if (past.now !== state) return;
	if (isPlain(spec.spec)) full = { spec: spec.spec };
	const began = performance.now();
	// Where one change made much wrong, it is offered once to have that as it was, also
	// where something was wrong before.
	const sole = offered.size > 1 ? undone(touched, state, sound) : [];
	const answers = sole.length ? (await quick.ask(sole.map((way) => ["summary", documentOf(way.state)]))).map((t) => JSON.parse(t)) : [];
	if (past.now !== state) return;
	const all = sole.filter((_, i) => isPlain(answers[i].summary) || isPlain(answers[i].error) && problemCount(answers[i].error) < problemCount(error) - 1);
	byId("problems-mend").replaceChildren(...all.map((way) => mendButton(way, true)));
	for (const [v, rooms] of [...offered]) {
		if (laidWrong.includes(v)) continue;
		let [best, found] = await tried(ways(v, state, form.defs, full, sound), v, state, error);
		const [, back] = best < 2 && all.length === 0 ? await tried(undone(touched, state, sound), v, state, error) : [0, []];
		if (best < 2 && back.length === 0) {
			const [better, out] = await tried(leftOut(v, state), v, state, error);
			if (better > best) found = out;
		}
		if (past.now !== state) return;
		for (const room of rooms) room.replaceChildren(...found.map((way) => mendButton(way, false)), ...back.map((way) => mendButton(way, true)));
		if (performance.now() - began > patience) return;
	}
}

/** Of some changes those that mend a violation best, three of them at most, and how well.
 * @param {import("./mend.js").Way[]} all @param {Plain} v @param {Plain} state @param {Plain} error @returns {Promise<[number, import("./mend.js").Way[]]>} */
async function tried(all, v, state, error, ask = async (/** @type {Plain} */ s) => JSON.parse((await quick.ask([["summary", documentOf(s)]]))[0])) {
	const how = [];
	for (const way of all) {
		// One by one: what is typed meanwhile does not wait for them.
		const answer = await ask(way.state);
		if (past.now !== state) return [0, []];
		how.push(mends(answer, v, { error }, way));
	}
	const best = Math.max(0, ...how);
	return [best, best > 0 ? all.filter((_, i) => how[i] === best).slice(0, 3) : []];
}

/** Tries what would do with a batch, which is laid out each time.
 * @param {Plain} state @param {Plain[]} all what is wrong with it */
async function offerLaid(state, all) {
	const ask = async (/** @type {Plain} */ s) => {
		const problems = wrongWith(JSON.parse((await slow.ask([["batch", batchDocument(s)]]))[0]), s);
		return { summary: {}, ...(problems.length ? { error: { problems } } : {}) };
	};
	const began = performance.now();
	for (const v of all) {
		const rooms = offered.get(v);
		if (!form || !rooms) continue;
		const [, found] = await tried(ways(v, state, form.defs, full, soundLaid), v, state, { problems: all }, ask);
		if (past.now !== state || performance.now() - began > patience) return;
		for (const room of rooms) room.replaceChildren(...found.map((way) => mendButton(way, false)));
	}
}

/** @param {import("./mend.js").Way} way @param {boolean} apart whether it is not about the field that is wrong */
function mendButton(way, apart) {
	const b = make("button", { type: "button", className: "mend" }, way.say, make("span", apart ? {} : { className: "hidden" }, " at " + label(way.path)));
	b.addEventListener("click", () => {
		go(way.state, way.path, true);
		const field = document.getElementById(idOf(way.path)) ?? form?.placeOf(way.path.replace(/^spec\./, "").toLowerCase())?.closest("fieldset, details, section")?.querySelector("input, select, summary, button:not(.mend)");
		if (!(field instanceof HTMLElement)) return;
		field.removeAttribute("aria-invalid"); // it is mended, and is not to be heard as wrong once more
		field.removeAttribute("aria-describedby");
		field.focus();
	});
	return b;
}

// ---- keeping

/** @param {string} name @param {string} type @param {string} text */
function download(name, type, text) {
	const a = /** @type {HTMLAnchorElement} */ (make("a", { href: URL.createObjectURL(new Blob([text], { type })), download: name }));
	document.body.append(a);
	a.click();
	a.remove();
	setTimeout(() => URL.revokeObjectURL(a.href), 10000);
}

/** The name of a file for this folio. @param {string} end */
function named(end) {
	const title = at(past.now, "spec.title");
	const plain = (typeof title === "string" ? title : "").normalize("NFKD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-|-$/g, "").slice(0, 40).toLowerCase();
	return (plain || "folio") + end;
}

/** Opens what is printed. @param {string} which the hand-out, or a name that handout.js knows */
function paper(which) {
	const address = toAddress(past.now);
	if (address === "") say("This folio is too long for an address, from which it would be printed: keep the hand-out (HTML), and print that.");
	else open("handout.html" + (which && "?print=" + which) + address, "_blank", "noopener");
}

function keepers() {
	byId("print").addEventListener("click", () => paper(""));
	byId("print-templates").addEventListener("click", () => paper("templates"));
	byId("save-json").addEventListener("click", () => download(named(".json"), "application/json", toFile(past.now)));
	const file = /** @type {HTMLInputElement} */ (byId("file"));
	byId("open-json").addEventListener("click", () => file.click());
	file.addEventListener("change", async () => {
		const one = await fileOf(file);
		if (one?.state) go(one.state, "", true);
		if (one) say(one.wrong ?? "Opened: " + one.name + ". Undo brings back what there was.");
	});
	const other = /** @type {HTMLInputElement} */ (byId("other-file"));
	other.addEventListener("change", async () => {
		const one = await fileOf(other);
		if (!one) return;
		const others = othersOf(past.now);
		if (one.state) go(put(past.now, "batch.others", [...others, alone(one.state)]) ?? past.now, "", true);
		say(one.wrong ?? "Added: " + titleOfOther(one.state, others.length) + ".");
	});
	byId("save-html").addEventListener("click", async () => {
		const answer = JSON.parse((await slow.ask([["handout", documentOf(past.now), "html", past.now.batch === undefined ? "" : batchDocument(past.now, true)]]))[0]);
		if (answer.handout) download(named(".html"), "text/html", answer.handout);
		else say("This folio cannot be made as it is, so there is no hand-out.");
	});
	byId("save-svg").addEventListener("click", async () => {
		const answer = JSON.parse((await slow.ask([["pictures", documentOf(past.now), JSON.stringify({ version: 1, alone: true })]]))[0]);
		if (!answer.pictures?.length) say("This folio cannot be made as it is, so there are no drawings.");
		for (const p of answer.pictures ?? []) {
			download(named("-" + p.name.replaceAll(" ", "-") + ".svg"), "image/svg+xml", p.svg);
			await new Promise((r) => setTimeout(r, 150)); // browsers take files one by one
		}
	});
	byId("steps").addEventListener("toggle", () => showSteps());
}

let stepsOf = "";
/** The order of work, when it is looked at. */
async function showSteps() {
	const box = /** @type {HTMLDetailsElement} */ (byId("steps"));
	const text = documentOf(past.now);
	if (!box.open || text === stepsOf) return;
	const answer = JSON.parse((await steady.ask([["plan", text, "steps.text"]]))[0]);
	if (!answer.plan) return;
	stepsOf = text;
	box.querySelector("ol")?.replaceChildren(...answer.plan.steps.map((s) => make("li", {}, s.text)));
}

// ---- beginning

async function begin() {
	work();
	const response = await fetch(new URL("schemas.json", import.meta.url));
	if (!response.ok) throw new Error("schemas.json: " + response.status);
	const schemas = await response.json();
	batchSchema = schemas.batch;
	form = new Form(byId("form"), schemas.spec, edit);
	changed();
	if (read.wrong) say(read.wrong + " What is shown is an example.");
	byId("undo").addEventListener("click", () => step(-1));
	byId("redo").addEventListener("click", () => step(1));
	byId("anew").addEventListener("click", () => {
		go(empty(unitShown() === "mm"), "", true);
		say("Begun anew, with nothing in it; Undo brings back what there was.");
	});
	// The address is the folio's: a way to a part of the page is gone without it.
	for (const a of document.querySelectorAll("#skip, #ways a")) {
		a.addEventListener("click", (e) => {
			e.preventDefault();
			const to = byId(/** @type {HTMLAnchorElement} */ (a).hash.slice(1));
			to.tabIndex = -1;
			to.focus({ preventScroll: true });
			to.scrollIntoView();
			follow(to);
		});
	}
	byId("share").addEventListener("click", async () => {
		write();
		if (written === "") return; // which it said
		if (past.now === example) return void say("This address holds no folio: change something first.");
		try {
			await navigator.clipboard.writeText(location.href);
			say("The address is copied: whoever opens it sees this folio.");
		} catch {
			say("The address above holds this folio: copy it from there.");
		}
	});
	for (const r of unitsAsked) r.addEventListener("change", () => switchUnits(r.value));
	addEventListener("hashchange", () => {
		if (location.hash === written) return;
		const { state, wrong } = fromAddress(location.hash);
		if (wrong) say(wrong + " The folio stays as it was.");
		if (state) go(state, "", true);
	});
	addEventListener("keydown", (e) => {
		if (!(e.ctrlKey || e.metaKey) || e.altKey || e.key.toLowerCase() !== "z" && e.key.toLowerCase() !== "y") return;
		e.preventDefault();
		step(e.key.toLowerCase() === "y" || e.shiftKey ? 1 : -1);
	});
	addEventListener("pagehide", write);
	keepers();
	Object.assign(globalThis, { folio: { took, get state() { return past.now; }, get plan() { return latest; }, get busy() { return busy; }, get placing() { return placing; }, get late() { return lateNow(); } } });
	if ("serviceWorker" in navigator) navigator.serviceWorker.register("offline.js").catch(() => {}); // without it the page needs the network
}

// Whatever was asked for and cannot be had is said, as without a network before all of the files are there.
addEventListener("unhandledrejection", (e) => {
	e.preventDefault();
	say("This could not be worked out: " + (e.reason instanceof Error ? e.reason.message : e.reason));
});

begin().catch((why) => say("The program could not be started: " + why));
