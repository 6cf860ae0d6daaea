using WireUp.Web.Folders;

namespace WireUp.Web.Hosting;

/// <summary>What the page is served over.</summary>
/// <param name="Folder">The folder of layouts.</param>
public sealed record PageOptions(ILayoutFolder Folder)
{
    /// <summary>Port; 0 for any that is free.</summary>
    public int Port { get; init; }

    /// <summary>Told the code with which a browser on another machine of the local network joins, and what else happens there; null where only this machine is served.</summary>
    public Action<string>? TellAtDoor { get; init; }

    /// <summary>The text of a finding's page by its code, or null where there is none.</summary>
    public Func<string, string?> FindingPage { get; init; } = _ => null;

    /// <summary>The text of a new layout with the name and scale given, to begin with.</summary>
    public Func<string, string, string> NewLayout { get; init; } = (_, _) => string.Empty;

    /// <summary>The text of a layout without track with the name and scale given, to draw on.</summary>
    public Func<string, string, string> BlankLayout { get; init; } = (_, _) => string.Empty;
}
