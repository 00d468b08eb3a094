// @ts-check
// What is printed of the folio in this page's address: its hand-out, or what the
// address asks for instead.
import { Desk } from "./desk.js";
import { batchDocument } from "./batch.js";
import { documentOf, fromAddress, first } from "./state.js";

/** @param {string} id */
const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/** The question whose answer is printed: what the address names before its state.
 * @param {Record<string, any>} state @returns {[string, ...string[]]} */
function wanted(state) {
	const which = new URLSearchParams(location.search).get("print") ?? "";
	if (which === "templates") return ["templates", documentOf(state), "html"];
	if (["buy", "cut", "prices"].includes(which)) return ["lists", batchDocument(state), which, "html"];
	return ["handout", documentOf(state), "html", state.batch === undefined ? "" : batchDocument(state, true)];
}

async function write() {
	byId("back").setAttribute("href", "./" + location.hash);
	const read = fromAddress(location.hash);
	if (read.wrong) {
		byId("said").textContent = read.wrong;
		return;
	}
	const state = read.state ?? first();
	const desk = new Desk("boardwrap.wasm");
	const [text] = await desk.ask([wanted(state)]);
	desk.stop("");
	const answer = JSON.parse(text);
	const written = answer.handout ?? answer.templates ?? answer.list;
	if (typeof written !== "string") {
		byId("said").textContent = "This cannot be made as it is, so there is nothing to print: " + (answer.error?.message ?? "");
		return;
	}
	// Its style comes as a sheet of rules and its body as elements: no text of it
	// is run, whatever the folio is called.
	const [, style = ""] = /<style>([^]*?)<\/style>/.exec(written) ?? [];
	const page = new DOMParser().parseFromString(written.replace(/<style>[^]*?<\/style>/, ""), "text/html");
	const rules = new CSSStyleSheet();
	rules.replaceSync(style);
	document.adoptedStyleSheets = [rules];
	document.title = page.title;
	byId("sheet").replaceChildren(...[...page.body.childNodes].map((n) => document.importNode(n, true)));
	byId("said").textContent = "It is written and can be printed.";
	const button = byId("print");
	button.removeAttribute("disabled");
	button.addEventListener("click", () => print());
}

addEventListener("hashchange", () => location.reload());
write().catch((why) => { byId("said").textContent = "The hand-out could not be written: " + why; });
