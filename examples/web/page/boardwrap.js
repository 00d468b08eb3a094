// boardwrap for JavaScript: JSON text in, JSON text out. It runs in pages, in
// workers and in node, and needs boardwrap.wasm and wasm_exec.js beside it.
import "./wasm_exec.js";

/** The WebAssembly module, compiled from whatever it comes as. */
async function moduleOf(source) {
	if (source instanceof WebAssembly.Module) return source;
	if (source === undefined) source = new URL("boardwrap.wasm", import.meta.url);
	if (source instanceof URL && source.protocol === "file:") {
		const { readFile } = await import("node:fs/promises");
		source = await readFile(source);
	}
	if (source instanceof URL || typeof source === "string") source = await fetch(source);
	if (source instanceof Response) {
		if (!source.ok) throw new Error("boardwrap.wasm: " + source.status);
		return WebAssembly.compileStreaming(source);
	}
	return WebAssembly.compile(source);
}

/** Compiles the program, to be opened as often as is wanted. */
export async function compile(source) {
	return moduleOf(source);
}

/** Starts the program; the object that it resolves to answers. */
export async function open(source) {
	const module = await moduleOf(source);
	const go = new globalThis.Go();
	go.env = { GOGC: "600" }; // memory is had for the asking, a frame has 16 ms
	go.exit = () => {}; // the answer of the question that ended it says so
	let answers;
	const instance = await WebAssembly.instantiate(module, go.importObject);
	// It calls this before run returns, so no other program that is opened meanwhile does.
	const before = globalThis.boardwrap;
	globalThis.boardwrap = (all) => { answers = all; };
	const ended = go.run(instance);
	globalThis.boardwrap = before;
	if (!answers) throw new Error("boardwrap.wasm does not answer");
	let alive = true;
	ended.then(() => { alive = false; }, () => { alive = false; });
	const wrapper = {
		/** Whether it still answers: a program without memory does not. */
		get alive() { return alive && !go.exited; },
	};
	for (const question of Object.keys(answers)) {
		wrapper[question] = (...texts) => {
			try {
				const answer = answers[question](...texts.map((text) => (typeof text === "string" ? text : "")));
				if (typeof answer !== "string") throw new Error("no answer");
				return answer;
			} catch (why) {
				alive = false;
				return lost(why);
			}
		};
	}
	return wrapper;
}

/** The document of an error, where the program cannot write it any more. */
function lost(why) {
	return JSON.stringify({ version: 1, error: { message: "the program has ended: " + why, faults: [], problems: [], more: 0 } });
}
