using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using WireUp.Web.Drafting;

namespace WireUp.Web.Hosting;

/// <summary>
/// Gives pictures of the folder to the drawing board: only what is a picture by its bytes, under the type that these say. A drawing in SVG can hold scripts; as
/// the picture of the board they are not run, and a browser that opens it by itself is told to run and load nothing.
/// </summary>
internal static class PictureEndpoint
{
    /// <summary>Nothing but styles, pictures and letters that are written into the drawing itself; no script, no form, no origin.</summary>
    internal const string ContentPolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; form-action 'none'; base-uri 'none'; frame-ancestors 'none'; sandbox";

    public static void Map(IEndpointRouteBuilder page) => page.MapGet("/pictures/{file}", (PageOptions options, HttpContext context, string file) =>
    {
        byte[]? bytes = options.Folder.ReadPicture(file);
        if (bytes is null || PictureHead.Of(bytes) is not { Refusal: null } head) return Results.NotFound();
        context.Response.Headers.CacheControl = "no-cache";
        context.Response.Headers.ContentSecurityPolicy = ContentPolicy;
        return Results.Bytes(bytes, head.MediaType);
    });
}
