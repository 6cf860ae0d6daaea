using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using WireUp.Web.Drafting;

namespace WireUp.Web.Hosting;

/// <summary>Gives pictures of the folder to the drawing board: only what is a picture by its bytes, under the type that these say.</summary>
internal static class PictureEndpoint
{
    public static void Map(IEndpointRouteBuilder page) => page.MapGet("/pictures/{file}", (PageOptions options, HttpContext context, string file) =>
    {
        byte[]? bytes = options.Folder.ReadPicture(file);
        if (bytes is null || PictureHead.Of(bytes) is not { Refusal: null } head) return Results.NotFound();
        context.Response.Headers.CacheControl = "no-cache";
        return Results.Bytes(bytes, head.MediaType);
    });
}
