/**
 * What follows from an object that never changes (a rulebook, a case, a situation), worked out when it is first asked
 * for and forgotten with the object.
 */
export function onceFor<Owner extends object, Made>(make: (owner: Owner) => Made): (owner: Owner) => Made {
  const made = new WeakMap<Owner, { readonly it: Made }>()
  return (owner) => {
    let known = made.get(owner)
    if (!known) made.set(owner, (known = { it: make(owner) }))
    return known.it
  }
}

/** The same for each key of an object. The key must tell apart whatever `make` would make differently. */
export function onceForEach<Owner extends object, Made>(): (
  owner: Owner,
  key: string,
  make: () => Made,
) => Made {
  const ofOwner = onceFor<Owner, Map<string, { readonly it: Made }>>(() => new Map())
  return (owner, key, make) => {
    const made = ofOwner(owner)
    let known = made.get(key)
    if (!known) made.set(key, (known = { it: make() }))
    return known.it
  }
}
