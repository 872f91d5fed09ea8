// Holds a shop's write lock, as a script that works in its file does: tsx holdShop.ts <file> <milliseconds>. Says "held" and lets go by itself.
import Database from "better-sqlite3";

const [file = "", ms = "0"] = process.argv.slice(2);
const raw = new Database(file, { fileMustExist: true });
raw.exec("BEGIN IMMEDIATE");
console.log("held");
setTimeout(() => {
  raw.exec("COMMIT");
  raw.close();
}, Number(ms));
