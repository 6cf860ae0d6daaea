using System.Collections.Immutable;
using WireUp.Web.Folders;

namespace WireUp.Web.Hosting;

/// <summary>The views of a layout, in the order of the job.</summary>
public enum PageView
{
    /// <summary>Track drawn over a picture of the plan.</summary>
    Draw,

    /// <summary>What is wrong or missing.</summary>
    Check,

    /// <summary>Proposals for the wiring.</summary>
    Wire,

    /// <summary>Volts and fault current; trains and coins.</summary>
    Load,

    /// <summary>Readings, and what is faulty by them.</summary>
    Fault,

    /// <summary>The layout file as text.</summary>
    Text,

    /// <summary>The wiring schedule to tick off.</summary>
    Sheet,
}

/// <summary>Addresses of the page.</summary>
public static class Addresses
{
    /// <summary>Every view with its word in an address and its title.</summary>
    public static readonly ImmutableArray<(PageView View, string Word, string Title)> Views =
    [
        (PageView.Draw, "draw", "Draw"),
        (PageView.Check, "check", "Check"),
        (PageView.Wire, "wire", "Wire"),
        (PageView.Load, "load", "Load"),
        (PageView.Fault, "fault", "Fault"),
        (PageView.Text, "text", "Text"),
        (PageView.Sheet, "sheet", "Work sheet"),
    ];

    /// <summary>The address of a view.</summary>
    public static string View(LayoutName name, PageView view = PageView.Check) =>
        $"/layouts/{Uri.EscapeDataString(name.Text)}/{Views.First(each => each.View == view).Word}";

    /// <summary>The address of a finding's page.</summary>
    public static string Why(string code) => $"/why/{Uri.EscapeDataString(code)}";

    /// <summary>The title of the view of a word.</summary>
    public static string Title(string? word) => Views.First(each => each.View == Read(word)).Title;

    /// <summary>The view of a word, Check where there is none of that word.</summary>
    public static PageView Read(string? word) => Views.Where(each => each.Word == word).Select(each => each.View).FirstOrDefault(PageView.Check);

    /// <summary>Where wiring books are.</summary>
    internal const string Books = "/books/";

    /// <summary>What the file of a wiring book is called after the name of its layout.</summary>
    internal const string BookEnding = "-wiring-book.pdf";

    /// <summary>The address of a layout's wiring book.</summary>
    public static string Book(LayoutName name) => Books + Uri.EscapeDataString(name.Text + BookEnding);

    /// <summary>The address of a picture of the folder.</summary>
    /// <param name="fileName">Its name.</param>
    /// <param name="version">Changes with its bytes, so that no browser shows an old one.</param>
    public static string Picture(string fileName, string version) => $"/pictures/{Uri.EscapeDataString(fileName)}?v={Uri.EscapeDataString(version)}";
}
