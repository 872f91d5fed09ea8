/** What the shared components say of photos; pages without one do not bring it. */
export const photoWords = {
  photoTake: "Take a photo",
  photoChoose: "Choose a photo",
  photoChosen: "The photo you chose",
  photoSending: "The photo is on its way",
  photoArriving: "It is there, and is being made ready",
  photoKept: "The photo is kept.",
  photoLost:
    "The connection was lost and the photo did not arrive. It is still here: send it again when you are back in reach.",
  photoBroke: "Something broke on our side. The photo is still here: send it once more.",
  photoTooLarge: "The photo is larger than 12 MB. Take it at a lower quality, or send a smaller copy.",
  photoAgain: "Send it again",
  photoDrop: "Leave it out",
} as const;
