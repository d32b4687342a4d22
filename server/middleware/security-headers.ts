import type { RequestHandler } from 'express'
import helmet from 'helmet'

/**
 * What a browser may do with our pages: load styles, scripts, pictures and sounds of this server, and nothing else.
 *
 * Plain http is the normal case here (a phone in the shop), so there is no `upgrade-insecure-requests`,
 * which would send its browser to an https that nobody serves. What came by TLS, by the word of a named proxy, is
 * remembered as such (HSTS, RFC 6797). For the same reason no opener and agent-cluster policies: browsers heed them on https alone and warn.
 */
export function securityHeaders(): RequestHandler {
  const headers = helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'", 'data:'],
        scriptSrc: ["'self'"],
        mediaSrc: ["'self'"],
        fontSrc: ["'self'"],
        manifestSrc: ["'self'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        baseUri: ["'none'"],
      },
    },
    strictTransportSecurity: false,
    referrerPolicy: { policy: 'same-origin' },
    frameguard: { action: 'deny' },
    crossOriginOpenerPolicy: false,
    originAgentCluster: false,
  })
  return (req, res, next) => {
    res.setHeader('Permissions-Policy', devices)
    if (req.secure) res.setHeader('Strict-Transport-Security', `max-age=${365 * 24 * 3600}`)
    headers(req, res, next)
  }
}

/** Of what a phone has, our own pages may listen, when somebody taps for it; nothing else is asked for. */
const devices = 'microphone=(self), camera=(), geolocation=(), usb=(), payment=()'
