using WireUp.Layouts;
using WireUp.Web.Folders;

namespace WireUp.Web.Desk;

/// <summary>A layout as it was read.</summary>
/// <param name="Name">Its name in the folder.</param>
/// <param name="Version">The version of its text.</param>
/// <param name="Document">Its text and what that says.</param>
public sealed record OpenLayout(LayoutName Name, string Version, LayoutDocument Document)
{
    /// <summary>The layout; null where the text has errors.</summary>
    public Layout? Layout => Document.Reading.Layout;
}

/// <summary>What opening a layout came to.</summary>
/// <param name="Layout">The layout, or null.</param>
/// <param name="Trouble">Why there is none; null where there is.</param>
public sealed record Opening(OpenLayout? Layout, string? Trouble);
