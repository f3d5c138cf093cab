/** A PDF's own objects, as pdfkit makes them: what its types leave out. */
interface Ref {
  end(): void;
}
type Inside = PDFKit.PDFDocument & {
  readonly _root: { readonly data: Record<string, object> };
  readonly page: { readonly resources: { readonly data: { Properties?: Record<string, Ref> } } };
  // A string is a name of PDF; a String object is a text.
  ref(data: Record<string, string | object>): Ref;
};

/** Layers that a reader of a PDF can switch (optional content, ISO 32000-1, 8.11). */
export class PdfLayers {
  readonly #doc: Inside;
  readonly #groups = new Map<string, Ref>();

  constructor(doc: PDFKit.PDFDocument) {
    this.#doc = doc as Inside;
  }

  /** What is drawn comes to lie on a layer of that name on the page at hand; the same name is the same layer on all pages. */
  on(name: string, draw: () => void): void {
    const { resources } = this.#doc.page;
    const group = this.#groups.get(name) ?? this.#doc.ref({ Type: 'OCG', Name: new String(name) });
    this.#groups.set(name, group);
    const word = `Layer${[...this.#groups.keys()].indexOf(name)}`;
    resources.data.Properties = { ...resources.data.Properties, [word]: group };
    this.#doc.addContent(`/OC /${word} BDC`);
    draw();
    this.#doc.addContent('EMC');
  }

  /** Writes the list of layers, all of them shown, before the document is ended. */
  finish(): void {
    const all = [...this.#groups.values()];
    for (const group of all) group.end();
    this.#doc._root.data.OCProperties = { OCGs: all, D: { ON: all, Order: all } };
  }
}
