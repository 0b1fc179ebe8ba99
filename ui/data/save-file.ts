/** Hands the reader a file to keep, made on the page itself. */
export function saveFile(name: string, mediaType: string, content: string | Blob): void {
  const blob =
    typeof content === "string"
      ? new Blob([content], { type: `${mediaType};charset=utf-8` })
      : content;
  const link = document.createElement("a");
  const address = URL.createObjectURL(blob);
  link.href = address;
  link.download = name;
  link.click();
  window.setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
