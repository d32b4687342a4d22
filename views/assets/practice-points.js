// The points said as they are given; without this file they are said when they are sent.
const fields = [...document.querySelectorAll('select[data-points]')]
const told = document.querySelector('[data-sum]')

function tell() {
  const sum = fields.reduce((all, { value }) => all + Number(value), 0)
  told.textContent =
    sum === 100
      ? 'All 100 given.'
      : sum > 100
        ? `${sum} given, ${sum - 100} too many.`
        : `${sum} given, ${100 - sum} left.`
}

for (const field of fields) field.addEventListener('change', tell)
if (told) tell()
