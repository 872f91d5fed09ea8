import type { Locator, Page } from "@playwright/test";

/** A person's hand: each click and each field filled is one act. */
export class Hand {
  acts = 0;

  constructor(readonly page: Page) {}

  async click(where: Locator): Promise<void> {
    this.acts++;
    await where.click();
  }

  button(name: string | RegExp): Promise<void> {
    return this.click(this.page.getByRole("button", { name, exact: true }).filter({ visible: true }).first());
  }

  link(name: string | RegExp): Promise<void> {
    return this.click(this.page.getByRole("link", { name, exact: true }).filter({ visible: true }).first());
  }

  async fill(label: string | RegExp, text: string): Promise<void> {
    this.acts++;
    await this.page.getByLabel(label, { exact: true }).filter({ visible: true }).first().fill(text);
  }

  async choose(label: string, option: string): Promise<void> {
    this.acts++;
    await this.page.getByLabel(label, { exact: true }).selectOption({ label: option });
  }
}
