"use server";
import { addRevision, createPackage, publishRevision, retirePackage } from "@/lib/data/packages/author";
import { action } from "@/lib/gate/action";
import {
  AddRevisionSchema,
  CreatePackageSchema,
  PublishRevisionSchema,
  RetirePackageSchema,
} from "@/lib/schemas/packages";

export const startPackage = action("package.write", CreatePackageSchema, async (shop, input, { key }) => {
  const id = await createPackage(shop, { ...input, key });
  return { to: `/s/${shop.slug}/packages/${id}`, toast: "Package made. Give it its first revision." };
});

export const writeRevision = action("package.write", AddRevisionSchema, async (shop, input, { key }) => {
  const { number } = await addRevision(shop, { ...input, key });
  return {
    to: `/s/${shop.slug}/packages/${input.packageId}?revision=${number}`,
    toast: `Revision ${number} is a draft.`,
  };
});

export const publish = action("package.write", PublishRevisionSchema, async (shop, input) => {
  const { number } = await publishRevision(shop, input);
  return { toast: `Revision ${number} is published: new quotes use it from now on.` };
});

export const retire = action("package.write", RetirePackageSchema, async (shop, input) => {
  await retirePackage(shop, input);
  return {
    toast: input.active === "yes" ? "On the list for new quotes again." : "Off the list for new quotes.",
  };
});
