import { expect, test } from "@playwright/test";
import { signIn } from "./people";
import { demandUsable, listen } from "./watched";

test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });

test("two jets go to another bin, that bin is counted blind with a jet found in it, and the part says both", async ({
  page,
}) => {
  const ears = listen(page);
  const stamp = Date.now() % 100_000;
  const code = `ZB-${stamp}`;
  const found = `ZF-${stamp}`;
  const away = `Z${stamp}`;
  await signIn(page, "saltpanOwner");
  for (const each of [code, found]) {
    await page.goto("/s/saltpan/stock/new");
    await page.getByLabel("Code", { exact: true }).fill(each);
    await page.getByLabel("Name", { exact: true }).fill("Main jet, spare");
    await page.getByLabel("Kind").selectOption("other");
    await page.getByLabel("Bin", { exact: true }).fill("A1");
    await page.getByLabel("On hand now").fill("5");
    await page.getByRole("button", { name: "Add the part" }).click();
    await expect(page.getByRole("heading", { name: each })).toBeVisible();
  }
  await page.goto(`/s/saltpan/stock?q=${code}`);
  await page.getByRole("link", { name: code, exact: true }).click();
  const lies = page.locator("section").filter({ has: page.getByRole("heading", { name: "Where it lies" }) });
  await expect(lies.getByRole("listitem")).toHaveText([/A1.*5.*its usual bin/]);
  await lies.getByRole("button", { name: "Move to another bin" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByRole("textbox", { name: "How much" }).fill("2");
  await dialog.getByRole("button", { name: "Move it" }).click();
  await expect(dialog.getByText(/Say which bin it goes to/).first()).toBeVisible();
  await dialog.getByRole("textbox", { name: "Another bin" }).fill(away);
  await demandUsable(page);
  await dialog.getByRole("button", { name: "Move it" }).click();
  await expect(lies.getByRole("listitem")).toHaveText([/A1.*3.*its usual bin/, new RegExp(`${away}.*2`)]);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect(lies.getByRole("listitem")).toHaveText([/A1.*5/]);
  await lies.getByRole("button", { name: "Move to another bin" }).click();
  await dialog.getByRole("textbox", { name: "How much" }).fill("2");
  await dialog.getByRole("textbox", { name: "Another bin" }).fill(away);
  await dialog.getByRole("button", { name: "Move it" }).click();
  await expect(lies.getByRole("listitem")).toHaveCount(2);
  await demandUsable(page);

  await page.goto("/s/saltpan/stock/counts");
  await page.getByRole("combobox", { name: "The bin you stand before" }).fill(away.toLowerCase());
  await page.getByRole("button", { name: "Count it" }).click();
  await expect(page.getByRole("heading", { name: `Count bin ${away}` })).toBeVisible();
  await page.getByRole("textbox", { name: code }).fill("1");
  await page.getByRole("textbox", { name: "Something lies there that is not listed" }).fill(found);
  await page.getByRole("button", { name: "Add it to the count" }).click();
  await page.getByRole("textbox", { name: found }).fill("4");
  await expect(page.getByRole("textbox", { name: code })).toHaveValue("1");
  await demandUsable(page);
  await page.getByRole("button", { name: "Counted" }).click();
  await expect(page.getByText("−1: counted 1, ledger 2")).toBeVisible();
  await expect(page.getByText("+4: counted 4, ledger 0")).toBeVisible();
  await demandUsable(page);
  await page.getByRole("button", { name: "Approve, 2 into the ledger" }).click();
  await expect(page).toHaveURL(/\/stock\/counts$/);

  await page.goto(`/s/saltpan/stock?q=${away}`);
  await expect(page.getByText(`also 1 in ${away}`)).toBeVisible();
  await expect(page.getByText(`also 4 in ${away}`)).toBeVisible();
  await page.getByRole("link", { name: code, exact: true }).click();
  await expect(lies.getByRole("listitem")).toHaveText([/A1.*3/, new RegExp(`${away}.*1`)]);
  ears.demandQuiet();
});
