/** What the program can be started from: where its bytes are, or the bytes. */
export type Source = URL | string | Response | BufferSource | WebAssembly.Module;

/**
 * The library. Every function takes and returns JSON text, in the documents of
 * folio/wire; what cannot be done comes back as the document of an error, and
 * nothing throws. The JSON Schema of each document is in schemas.json beside this
 * file, by its name: spec, plan, closing, posting, batch, request, proposals,
 * layout, costs, error.
 */
export interface Boardwrap {
	/** Whether the program still answers; one that ran out of memory does not. */
	readonly alive: boolean;
	/** What is shown of a folio while somebody types, refitted if the document holds the cover as measured: sizes and workings as texts, places in millimetres. */
	summary(made: string): string;
	/** The plan of a folio, refitted if the document holds the cover as measured, which stands in its member measured then; only names the members that are wanted, with commas between. */
	plan(made: string, only?: string): string;
	/** The Spec with every default filled in. */
	spec(made: string): string;
	/** The Spec as it is, its lengths written in its own notation. */
	tidy(made: string): string;
	/** Pictures of the folio as SVG; wanted is a document as in {"version": 1, "names": ["inside", "piece 0"], "fit": "100 x 200 mm"}, without names all of them, with "list": true the names of all. */
	pictures(made: string, wanted?: string): string;
	/** What is to be said of the folio: whether it shuts and where it is tightest, what it weighs, what postal services make of it. */
	verdicts(made: string): string;
	/** The hand-out of the folio for the bench, laid out on the sheets of a batch or else on those of its Spec; form is html, markdown or plain. */
	handout(made: string, form?: string, batch?: string): string;
	/** What of the folio is easier traced than measured, at full size, in the forms of handout. */
	templates(made: string, form?: string): string;
	/** How a batch is laid out on sheets and what it costs; batch is a document of that name, wanted says how much room the picture of a sheet has. */
	batch(batch: string, wanted?: string): string;
	/** A list of a batch, in the forms of handout: which is buy, cut or prices. */
	lists(batch: string, which?: string, form?: string): string;
	/** The request for proposals that somebody says in words, as in {"version": 1, "contents": "2 photo 4 x 6 in, 1 ID-1 card"}, for the form, boards and papers of a Spec, with "anyForm": true for the best of all forms. */
	request(contents: string, made?: string): string;
	/** The folios that are proposed for a request. */
	proposals(request: string): string;
}

/** Compiles the program, to be opened as often as is wanted; without a source, from boardwrap.wasm beside this file. */
export function compile(source?: Source): Promise<WebAssembly.Module>;

/** Starts the program, from boardwrap.wasm beside this file or from the source given. */
export function open(source?: Source): Promise<Boardwrap>;
