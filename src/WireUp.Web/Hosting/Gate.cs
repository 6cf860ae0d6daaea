using System.Net;
using Microsoft.AspNetCore.Http;

namespace WireUp.Web.Hosting;

/// <summary>
/// Lets in only what a browser on this machine asks of this page, or with a door one in its local network: a foreign Host header (a name somebody has pointed at
/// this machine), a foreign Origin, and requests that another site makes a browser send are refused. Every answer carries the content policy.
/// </summary>
internal sealed class Gate(RequestDelegate next)
{
    /// <summary>Nothing from outside, no script or style but in files of our own, no frame, no form to elsewhere.</summary>
    internal const string ContentPolicy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; "
        + "form-action 'self'; base-uri 'self'; frame-ancestors 'none'; object-src 'none'";

    public Task InvokeAsync(HttpContext context)
    {
        SetHeaders(context.Response.Headers);
        return Refusal(context.Request, context.Connection) is var (status, reason)
            ? RefuseAsync(context, status, reason)
            : next(context);
    }

    /// <summary>Whether a request comes from a program on this machine, by the address that nobody else can have.</summary>
    internal static bool IsOfThisMachine(ConnectionInfo connection) => connection.RemoteIpAddress is { } remote && IPAddress.IsLoopback(remote);

    /// <summary>The name that a request has to ask for: of another machine's the very address that it reached.</summary>
    private static bool IsOwnName(string host, ConnectionInfo connection) => IsOfThisMachine(connection)
        ? host is "127.0.0.1" or "localhost" or "[::1]"
        : host == connection.LocalIpAddress?.ToString();

    private static (int Status, string Reason)? Refusal(HttpRequest request, ConnectionInfo connection)
    {
        if (!IsOwnName(request.Host.Host, connection) || request.Host.Port != connection.LocalPort)
        {
            return (StatusCodes.Status421MisdirectedRequest, "This page answers only under the address that 'wireup serve' prints.");
        }

        string own = $"http://{request.Host}";
        if (request.Headers.Origin.Any(origin => origin != own))
        {
            return (StatusCodes.Status403Forbidden, "Another site asked for this; it was refused.");
        }

        string site = request.Headers["Sec-Fetch-Site"].ToString();
        bool isLink = HttpMethods.IsGet(request.Method) && request.Headers["Sec-Fetch-Mode"] == "navigate" && request.Headers["Sec-Fetch-Dest"] == "document";
        return site is "" or "same-origin" or "none" || isLink
            ? null
            : (StatusCodes.Status403Forbidden, "Another site asked for this; it was refused.");
    }

    private static void SetHeaders(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = ContentPolicy;
        headers.XContentTypeOptions = "nosniff";
        headers.XFrameOptions = "DENY";
        headers["Referrer-Policy"] = "same-origin"; // "no-referrer" would make browsers hide the origin of our own forms, which are then refused
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=(), usb=(), serial=()";
    }

    internal static Task RefuseAsync(HttpContext context, int status, string reason)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(reason, context.RequestAborted);
    }
}
