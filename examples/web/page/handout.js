// @ts-check
// The hand-out of the folio in this page's address, ready to print.
import { Desk } from "./desk.js";
import { documentOf, fromAddress, first } from "./state.js";

/** @param {string} id */
const byId = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

async function write() {
	byId("back").setAttribute("href", "./" + location.hash);
	const read = fromAddress(location.hash);
	if (read.wrong) {
		byId("said").textContent = read.wrong;
		return;
	}
	const desk = new Desk("boardwrap.wasm");
	const [text] = await desk.ask([["handout", documentOf(read.state ?? first()), "html"]]);
	desk.stop("");
	const answer = JSON.parse(text);
	if (typeof answer.handout !== "string") {
		byId("said").textContent = "This folio cannot be made as it is, so there is nothing to print: " + (answer.error?.message ?? "");
		return;
	}
	// Its style comes as a sheet of rules and its body as elements: no text of it
	// is run, whatever the folio is called.
	const [, style = ""] = /<style>([^]*?)<\/style>/.exec(answer.handout) ?? [];
	const page = new DOMParser().parseFromString(answer.handout.replace(/<style>[^]*?<\/style>/, ""), "text/html");
	const rules = new CSSStyleSheet();
	rules.replaceSync(style);
	document.adoptedStyleSheets = [rules];
	document.title = page.title;
	byId("sheet").replaceChildren(...[...page.body.childNodes].map((n) => document.importNode(n, true)));
	byId("said").textContent = "";
	const button = byId("print");
	button.removeAttribute("disabled");
	button.addEventListener("click", () => print());
}

addEventListener("hashchange", () => location.reload());
write().catch((why) => { byId("said").textContent = "The hand-out could not be written: " + why; });
