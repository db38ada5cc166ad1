// What the type checker needs to know of our pages beyond the browser's own types.

// What the server writes in front of a service worker.
declare const KEPT: { version: string; assets: string[]; later: string[]; hashes: Record<string, string> };

// What is found in a page by id or selector. Which kind of control stands there is the page's affair (the browser's
// tests see it); here a name that no control has is an error.
type PageElement = HTMLElement & {
  checked: boolean;
  content: DocumentFragment;
  disabled: boolean;
  elements: Iterable<HTMLInputElement> & Record<string, any>;
  hash: string;
  method: string;
  href: string;
  name: string;
  options: HTMLOptionsCollection;
  selectedOptions: HTMLCollectionOf<HTMLOptionElement>;
  value: string;
  reset(): void;
  submit(): void;
};

interface Document {
  getElementById(id: string): PageElement | null;
}

interface ParentNode {
  querySelector(selectors: string): PageElement | null;
  querySelectorAll(selectors: string): NodeListOf<PageElement>;
}

interface DocumentFragment {
  cloneNode(deep?: boolean): DocumentFragment;
}

// Background sync, where a browser has it.
interface ServiceWorkerRegistration {
  readonly sync?: { register(tag: string): Promise<void> };
}

// Service workers see another `self`.
interface Window {
  readonly clients: Clients;
  skipWaiting(): Promise<void>;
}
