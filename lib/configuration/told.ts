import { type SettingTold, settingsTold } from "./settings";

/** README.md's table of settings. */
function settingsTable(): string {
  const rows = settingsTold().map(
    (setting) => `| \`${setting.name}\` | ${defaultOf(setting)} | ${setting.about} |`,
  );
  return ["| setting | default | what it does |", "|---|---|---|", ...rows].join("\n");
}

function defaultOf({ otherwise, byDefault }: SettingTold): string {
  return otherwise ?? (byDefault === undefined ? "unset" : `\`${byDefault}\``);
}

/** The text of .env.example: every setting with its default, none of them set. */
export function envExample(): string {
  const head =
    "# Settings of Throttlewright. Copy this file to .env and take the # from what you change.\n# Made by `npm run settings` from lib/configuration/settings.ts.\n";
  const entries = settingsTold().map(({ name, about, otherwise, byDefault }) => {
    const unset = otherwise === undefined ? "" : ` (without it: ${otherwise})`;
    return `# ${(about + unset).replaceAll("`", "")}\n#${name}=${byDefault ?? ""}\n`;
  });
  return [head, ...entries].join("\n");
}

const BEGIN = "<!-- settings -->";
const END = "<!-- /settings -->";

/** README.md with its table of settings as they are now. */
export function withSettingsTable(readme: string): string {
  const from = readme.indexOf(BEGIN);
  const to = readme.indexOf(END);
  if (from < 0 || to < from) throw new Error(`README.md has no place for settings: ${BEGIN} … ${END}.`);
  return `${readme.slice(0, from + BEGIN.length)}\n\n${settingsTable()}\n\n${readme.slice(to)}`;
}
