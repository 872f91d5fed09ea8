import { declareValuePlugin, PluginKind } from "@stryker-mutator/api/plugin";

/** Texts of two words that are keys all the same. */
const KEYS: readonly string[] = ["starting point"];

/** Whether a text is only words for people: two words or more, and no key. What an empty one would do, only a screen shows. */
export function isWords(text: string): boolean {
  return !KEYS.includes(text) && /\p{L}\S*\s+\S*\p{L}/u.test(text.replaceAll(/\$\{[^}]*\}/gu, "0"));
}

/** StrykerJS asks this of every node: texts that are only words are left as they are. */
export const strykerPlugins = [
  declareValuePlugin(PluginKind.Ignore, "words", {
    shouldIgnore: (path) => {
      const { node } = path as { readonly node?: { readonly type: string; readonly value?: unknown } };
      return node?.type === "StringLiteral" && isWords(String(node.value)) ? "words on screens" : undefined;
    },
  }),
];
