import { readFileSync, writeFileSync } from "node:fs";
import { envExample, withSettingsTable } from "./told";

/** npm run settings: writes README.md's table and .env.example from the settings' schema. */
writeFileSync("README.md", withSettingsTable(readFileSync("README.md", "utf8")));
writeFileSync(".env.example", envExample());
