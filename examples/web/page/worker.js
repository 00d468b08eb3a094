// @ts-check
// Answers questions away from the page.
import { compile, open } from "./boardwrap.js";

let program = "";

/** @type {WebAssembly.Module | undefined} */
let module;

/** @type {Promise<import("./boardwrap.js").Boardwrap> | undefined} */
let library;

async function start() {
	if (!module) {
		module = await compile(new URL(program, import.meta.url));
		postMessage({ module });
	}
	return open(module);
}

/** The library; one that could not be fetched is fetched when something is asked again. */
const opened = () => (library ??= start().catch((why) => {
	library = undefined;
	throw why;
}));

onmessage = async ({ data }) => {
	if (!("id" in data)) {
		({ program, module } = data);
		return;
	}
	try {
		const told = (/** @type {string} */ text) => postMessage({ id: data.id, progress: JSON.parse(text) });
		let answers;
		for (let ended = 0; ended < 2; ended++) {
			const asked = await opened();
			answers = data.questions.map(([name, ...texts]) => asked[name](...texts, told));
			if (asked.alive) break;
			// It has ended, out of memory perhaps: a fresh one has all of that. Where that ends too, the answer says so.
			library = undefined;
		}
		postMessage({ id: data.id, answers });
	} catch (why) {
		postMessage({ id: data.id, failed: String(why) });
	}
};
