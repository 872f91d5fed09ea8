import { describe, expect, it } from "vitest";
import { demandGoodPassword } from "@/lib/data/people/passwords";
import { readyStrength } from "@/lib/data/people/strength";
import { Refusal } from "@/lib/domain/refusal";

const ABOUT = ["maren@saltpan.example", "Maren Tolliver", "Saltpan Carburettor Works"];

function refusalOf(password: string): Refusal | null {
  try {
    demandGoodPassword(password, ABOUT);
    return null;
  } catch (cause) {
    if (cause instanceof Refusal) return cause;
    throw cause;
  }
}

describe("a password", () => {
  it.each([
    "Password1234!",
    "P@ssw0rd1234",
    "qwertyuiop12",
    "1234567890",
    "aaaaaaaaaaaa",
    "abcabcabcabc",
    "throttlewright",
    "Carburettor1",
    "maren@saltpan.example",
    "marentolliver1",
    "saltpancarburettorworks",
    "Drowssap4321",
  ])("that is guessed soon is refused with a reason and a suggestion: %s", (password) => {
    const refusal = refusalOf(password);
    expect(refusal?.message).toMatch(/guessed too soon/);
    expect(refusal?.fields.password).toMatch(/\w.*\.$/);
    expect(refusal?.remedy).toMatch(/\w.*\.$/);
    expect(refusal?.remedy).not.toBe(refusal?.fields.password);
  });

  it.each([
    "float and needle, seated",
    "three words, seated",
    "vkqz pmwt hbrx",
    "tråd og nål under lampa",
    "葉隠の聞書を読む夜更けの",
  ])("that is long and unlike others is taken, whatever its characters: %s", (password) => {
    expect(refusalOf(password)).toBeNull();
  });

  it("has from 10 to 200 characters", () => {
    expect(refusalOf("vk!9qzpmw")?.message).toMatch(/too short/);
    expect(refusalOf("vkqz pmwt hbrx ".repeat(14).slice(0, 201))?.message).toMatch(/too long/);
    expect(refusalOf(`${"vkqz pmwt hbrx, lnsd fgyc ".repeat(8).slice(0, 150)}`)).toBeNull();
  });

  it("of any length is looked at only as far as that stays quick", () => {
    const seen: number[] = [];
    const strength = readyStrength();
    const check = strength.check.bind(strength);
    strength.check = (password, about) => {
      seen.push(password.length);
      return check(password, about);
    };
    refusalOf("4@8({3&6#!1".repeat(18));
    expect(seen).toEqual([64]);
    strength.check = check;
  });
});
