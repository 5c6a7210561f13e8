// Today's work in a line on the first page: laid out once the page stands, for it may take seconds the first time.
const place = document.querySelector("#days-line span");

async function fill() {
  const answer = await fetch("/days/line", { headers: { Accept: "text/plain" } }).catch(() => null);
  if (place && answer && answer.ok) place.textContent = `: ${await answer.text()}`;
}

fill();
