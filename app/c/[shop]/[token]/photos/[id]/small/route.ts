import { shownPicture } from "../../shown";

type Context = { params: Promise<{ shop: string; token: string; id: string }> };

export const GET = async (request: Request, { params }: Context): Promise<Response> =>
  shownPicture(request, await params, "small");
