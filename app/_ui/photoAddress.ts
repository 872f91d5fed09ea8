/** Where a photo is sent to: what it shows stands in the address, the body is the picture. */
export function photoAddress(shop: string, noun: string, id: number): string {
  return `/api/s/${shop}/photos?noun=${noun}&id=${id}`;
}
