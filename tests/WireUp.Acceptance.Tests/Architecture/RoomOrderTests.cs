using System.Xml.Linq;

namespace WireUp.Acceptance.Tests.Architecture;

public sealed class RoomOrderTests
{
    public static TheoryData<string> RoomNames => [.. Rooms.InOrder];

    [Fact]
    public void Every_folder_in_src_is_a_known_room_or_the_program()
    {
        var folders = Directory.GetDirectories(RepoFiles.PathOf("src")).Select(Path.GetFileName);
        var known = Rooms.InOrder.Append("WireUp");
        Assert.Equal(known.Order(StringComparer.Ordinal), folders.Order(StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(RoomNames))]
    public void A_room_is_compiled_only_against_rooms_before_it(string room)
    {
        var known = Rooms.AssemblyOf(room).GetReferencedAssemblies().Select(name => name.Name ?? "").Where(IsOurs);
        Assert.Empty(known.Except(RoomsBefore(room), StringComparer.OrdinalIgnoreCase));
    }

    [Theory]
    [MemberData(nameof(RoomNames))]
    public void A_project_names_only_rooms_before_it(string room)
    {
        var project = XDocument.Parse(RepoFiles.ReadText($"src/{room}/{room}.csproj"));
        var named = project.Descendants("ProjectReference").Select(reference => NameOf((string?)reference.Attribute("Include")));
        Assert.Empty(named.Except(RoomsBefore(room)));
    }

    [Fact]
    public void Unsafe_code_is_allowed_in_the_numeric_room_only()
    {
        var allowed = Rooms.InOrder.Append("WireUp")
            .Where(room => RepoFiles.ReadText($"src/{room}/{room}.csproj").Contains("AllowUnsafeBlocks", StringComparison.Ordinal));
        Assert.Equal(["WireUp.Circuits"], allowed);
    }

    private static IEnumerable<string> RoomsBefore(string room) => Rooms.InOrder.TakeWhile(other => other != room);

    private static bool IsOurs(string assembly) =>
        assembly.StartsWith("WireUp.", StringComparison.Ordinal) || assembly == Rooms.Program;

    private static string NameOf(string? projectPath) => Path.GetFileNameWithoutExtension(projectPath ?? "");
}
