using System.Net;
using System.Net.Sockets;
using Microsoft.AspNetCore.Http;

namespace WireUp.Web.Hosting;

/// <summary>
/// With the page open to the local network, lets other machines only through the door: without its key they get the form that asks for the code and the style
/// sheet for it, and nothing else, connections of open pages included.
/// </summary>
internal sealed class JoinGate(RequestDelegate next, JoinDoor door)
{
    internal const string CookieName = "wireup-join";
    internal const string FormPath = "/join";

    private const string StylePath = "/_content/WireUp.Web/page.css";
    private const int LongestForm = 1024;

    public Task InvokeAsync(HttpContext context)
    {
        if (Gate.IsOfThisMachine(context.Connection)) return next(context);
        if (context.Connection.RemoteIpAddress is not { } remote || !(IsNear(remote) || remote.Equals(context.Connection.LocalIpAddress)))
        {
            return Gate.RefuseAsync(context, StatusCodes.Status403Forbidden, "This page is for the local network only.");
        }

        bool isForm = context.Request.Path == FormPath && HttpMethods.IsPost(context.Request.Method);
        if (isForm) return JoinAsync(context, remote);
        bool isIn = context.Request.Cookies[CookieName] is { } key && door.Knows(key);
        bool isStyle = context.Request.Path == StylePath && HttpMethods.IsGet(context.Request.Method);
        return isIn || isStyle ? next(context) : AskAsync(context, StatusCodes.Status401Unauthorized, "");
    }

    /// <summary>Whether an address belongs to a private network. Source: RFC 1918, section 3, and RFC 3927, section 2.1.</summary>
    internal static bool IsNear(IPAddress address) => address.AddressFamily == AddressFamily.InterNetwork && address.GetAddressBytes() is
        [10, ..] or [172, >= 16 and <= 31, ..] or [192, 168, ..] or [169, 254, ..];

    private async Task JoinAsync(HttpContext context, IPAddress remote)
    {
        if (context.Request.ContentLength is not <= LongestForm || !context.Request.HasFormContentType)
        {
            await Gate.RefuseAsync(context, StatusCodes.Status400BadRequest, "This is not the form that was asked for.");
            return;
        }

        IFormCollection form = await context.Request.ReadFormAsync(context.RequestAborted);
        if (door.Trade(form["code"].ToString(), remote) is not { } key)
        {
            await (door.IsShut(remote)
                ? AskAsync(context, StatusCodes.Status429TooManyRequests, "Too many wrong codes were tried; this browser is not heard any more.")
                : AskAsync(context, StatusCodes.Status401Unauthorized, "That is not the code, or somebody has used it already: each lets in one browser."));
            return;
        }

        context.Response.Cookies.Append(CookieName, key, new() { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/", IsEssential = true });
        context.Response.Redirect("/");
    }

    private static Task AskAsync(HttpContext context, int status, string trouble)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/html; charset=utf-8";
        context.Response.Headers.CacheControl = "no-store";
        return context.Response.WriteAsync(
            $"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
              <meta charset="utf-8" /><meta name="viewport" content="width=device-width, initial-scale=1" />
              <link rel="stylesheet" href="{StylePath}" /><title>Join · WireUp</title>
            </head>
            <body>
              <header class="top"><h1>WireUp</h1></header>
              <main class="narrow">
                {(trouble.Length == 0 ? "" : $"<p class=\"notice trouble\" role=\"alert\">{trouble}</p>")}
                <p>This page is shared in the local network. The code to join stands in the window of <code>wireup serve --lan</code> on the machine that shares it.</p>
                <form method="post" action="{FormPath}" class="row">
                  <label for="code">Code</label>
                  <input id="code" name="code" required="" maxlength="20" autocomplete="off" autocapitalize="characters" spellcheck="false" />
                  <button type="submit">Join</button>
                </form>
                <p class="quiet">What you see and change here goes over the network unencrypted.</p>
              </main>
            </body>
            </html>
            """,
            context.RequestAborted);
    }
}
