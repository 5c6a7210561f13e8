// Fetches what would mend a plan while the page already says that it is being tried; without this script a link waits.
const trying = document.querySelector("[data-trying]");

async function fetchMends() {
  const said = trying.querySelector("[role=status]");
  try {
    const answer = await fetch(trying.dataset.trying);
    if (!answer.ok) throw new Error(String(answer.status));
    const part = document.createElement("section");
    part.innerHTML = await answer.text();
    trying.replaceChildren(said, part);
    said.textContent = "All of it was tried.";
    trying.removeAttribute("data-trying");
  } catch {
    said.textContent = "What was tried did not come back. The link below tries again.";
  }
}

fetchMends();
