using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Web.Folders;

namespace WireUp.Web.Hosting;

/// <summary>The two forms of the list of layouts: a new one, and one that is handed in. Both ask for the antiforgery token that the list carries.</summary>
internal static class HandInEndpoints
{
    public static void Map(IEndpointRouteBuilder page)
    {
        page.MapPost("/start", (PageOptions options, [FromForm] string? name, [FromForm] string? scale, [FromForm] string? with) => Start(options, name, scale, with));
        page.MapPost("/hand-in", (PageOptions options, IFormFile? file) => HandInAsync(options, file));
    }

    private static IResult Start(PageOptions options, string? typed, string? scale, string? with)
    {
        if (LayoutName.Of(typed?.Trim()) is not { } name) return Back($"'{typed}' cannot be the name of a layout: {LayoutName.Expected}");
        string known = ScaleTable.All.Any(row => row.Name == scale) ? scale! : "HO";
        return with == "example"
            ? Store(options.Folder, name, options.NewLayout(name.Text, known), PageView.Text)
            : Store(options.Folder, name, options.BlankLayout(name.Text, known), PageView.Draw);
    }

    private static async Task<IResult> HandInAsync(PageOptions options, IFormFile? file)
    {
        if (file is null) return Back("No file was chosen");
        if (LayoutName.OfFile(Path.GetFileName(file.FileName)) is not { } name)
        {
            return Back($"The name of a layout file ends in {LayoutFile.Ending}, and before it stand {LayoutName.Expected}");
        }

        using MemoryStream bytes = new();
        await file.CopyToAsync(bytes);
        try
        {
            return Store(options.Folder, name, new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes.ToArray()), PageView.Check);
        }
        catch (DecoderFallbackException)
        {
            return Back($"'{file.FileName}' is not UTF-8 text");
        }
    }

    private static IResult Store(ILayoutFolder folder, LayoutName name, string text, PageView view) => folder.Save(name, FileRole.Layout, text, seen: null) switch
    {
        SaveOutcome.Saved => Results.LocalRedirect(Addresses.View(name, view)),
        SaveOutcome.Conflict => Back($"There is a layout '{name}' already; it was left as it is"),
        SaveOutcome.Refused refused => Back(refused.Reason),
        _ => throw new InvalidOperationException("not an outcome of saving"),
    };

    private static IResult Back(string trouble) => Results.LocalRedirect($"/?trouble={Uri.EscapeDataString(trouble)}");
}
