using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using WireUp.Web.Desk;
using WireUp.Web.Folders;

namespace WireUp.Web.Hosting;

/// <summary>Gives the wiring book of a layout, made when it is asked for. Whoever goes away stops the work.</summary>
internal static class BookEndpoint
{
    public static void Map(IEndpointRouteBuilder page) => page.MapGet(Addresses.Books + "{file}", async (LayoutDesk desk, HttpContext context, string file) =>
    {
        if (!file.EndsWith(Addresses.BookEnding, StringComparison.Ordinal) || LayoutName.Of(file[..^Addresses.BookEnding.Length]) is not { } name) return Results.NotFound();
        Opening opening = await desk.OpenAsync(name, context.RequestAborted);
        return opening.Layout is { Layout: not null } open
            ? Results.File(await desk.BookAsync(open, context.RequestAborted), "application/pdf", file)
            : Results.NotFound();
    });
}
