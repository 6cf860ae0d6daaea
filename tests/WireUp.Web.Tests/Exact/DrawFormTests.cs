using System.Collections.Immutable;
using AngleSharp.Dom;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Layouts.Tracing;
using WireUp.Web.Components.Drawing;
using WireUp.Web.Drafting;
using WireUp.Web.Folders;

namespace WireUp.Web.Tests.Exact;

/// <summary>The forms of the Draw view: what each asks for, carried out on a layout.</summary>
public sealed class DrawFormTests : BunitContext
{
    private static readonly LayoutDocument Attic = LayoutDocument.Open(
        """
        wireup: 1
        name: attic
        longest-train: 1 m
        picture: { file: attic.picture.png, width: 2 m }
        track:
          main: { path: [[0, 0], [1000, 0]] }
          T1: { turnout: left, number: 6 }
          spur: { path: [[1100, 0], [1500, 0], [2000, 100]] }
        joined:
          - main > T1.points
          - T1.through > spur

        """,
        "attic");

    private readonly List<TrackEdit> _asked = [];

    [Fact]
    public async Task A_piece_is_renamed_measured_moved_and_taken_out()
    {
        IRenderedComponent<PieceForm> form = Form("main");
        await Change(form, "#piece-name", "front");
        Assert.Contains(Made(await Submit(form, "#piece-name")).Track, piece => piece.Id.Name == "front");
        await Change(form, "#piece-length", "1.2 m");
        Assert.Equal(1.2, Section(Made(await Submit(form, "#piece-length")), "main").Length.Meters, 1e-9);
        await Change(form, "#piece-corner", "1");
        Assert.Equal("1000, 0", form.Find("#piece-at").GetAttribute("value"));
        await Change(form, "#piece-at", "1000, 50");
        Assert.Equal(0.05, Section(Made(await Submit(form, "#piece-at")), "main").Path[^1].Y, 1e-9);
        await form.InvokeAsync(() => form.FindAll("button").Single(button => button.TextContent == "Take out main").Click());
        Assert.DoesNotContain(Made(_asked[^1]).Track, piece => piece.Id.Name == "main");
    }

    [Fact]
    public async Task What_cannot_be_read_asks_for_nothing_and_is_told()
    {
        IRenderedComponent<PieceForm> form = Form("main");
        await Change(form, "#piece-length", "a yard or so");
        await form.InvokeAsync(() => FormOf(form, "#piece-length").Submit());
        Assert.Empty(_asked);
        Assert.Contains("a yard or so", form.Find("[role=alert]").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_turnout_gets_its_hand_and_number_and_a_frog_its_feed()
    {
        IRenderedComponent<PieceForm> form = Form("T1");
        await Change(form, "#piece-hand", nameof(TurnoutHand.Right));
        await Change(form, "#piece-number", "8");
        Piece.Turnout turnout = Made(await Submit(form, "#piece-hand")).Track.OfType<Piece.Turnout>().Single();
        Assert.Equal((TurnoutHand.Right, 8), (turnout.Hand, turnout.Number));
        await Change(form, "#piece-frog", nameof(FrogKind.Isolated));
        await Change(form, "#piece-feed", nameof(FrogFeed.Contact));
        turnout = Made(await Submit(form, "#piece-frog")).Track.OfType<Piece.Turnout>().Single();
        Assert.Equal((FrogKind.Isolated, FrogFeed.Contact), (turnout.Frog, turnout.Feed));
        int before = _asked.Count;
        await Change(form, "#piece-number", "six");
        await form.InvokeAsync(() => FormOf(form, "#piece-hand").Submit());
        Assert.Equal(before, _asked.Count);
        Assert.Contains("'six'", form.Find("[role=alert]").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Track_is_added_by_its_points_and_points_that_are_none_are_told()
    {
        IRenderedComponent<LineForm> form = Render<LineForm>(with => with.Add(each => each.Asked, _asked.Add));
        await form.InvokeAsync(() => form.Find("#line-points").Change("0, 500; 900, 500"));
        await form.InvokeAsync(() => form.Find("form").Submit());
        Assert.Equal(0.9, Section(Made(_asked[^1]), "track-1").Length.Meters, 1e-9);
        await form.InvokeAsync(() => form.Find("#line-points").Change("0, 500; up"));
        await form.InvokeAsync(() => form.Find("form").Submit());
        Assert.Single(_asked);
        Assert.NotEmpty(form.Find("[role=alert]").TextContent);
    }

    [Fact]
    public async Task The_picture_is_laid_where_it_is_typed_scaled_by_two_points_and_taken_out()
    {
        DirectoryInfo directory = Directory.CreateTempSubdirectory("wireup-picture-");
        using LayoutFolder folder = new(directory);
        Services.AddSingleton(new PictureDesk(folder));
        IRenderedComponent<PictureForm> form = Render<PictureForm>(with => with.Add(each => each.Name, LayoutName.Of("attic")!.Value)
            .Add(each => each.Picture, Attic.Reading.Layout!.Picture).Add(each => each.DistanceMetres, 0.5).Add(each => each.Asked, _asked.Add));
        Assert.Contains("There is no picture 'attic.picture.png'", form.Markup, StringComparison.Ordinal);
        await form.InvokeAsync(() => form.Find("#picture-at").Change("100, -50"));
        await form.InvokeAsync(() => form.Find("#picture-turn").Change("90 deg"));
        await form.InvokeAsync(() => FormOf(form, "#picture-at").Submit());
        PlanPicture laid = Made(_asked[^1]).Picture!;
        Assert.Equal((0.1, -0.05, 90.0), (laid.At.X, laid.At.Y, laid.Turn.Degrees));
        await form.InvokeAsync(() => form.Find("#picture-distance").Change("1 m"));
        await form.InvokeAsync(() => FormOf(form, "#picture-distance").Submit());
        Assert.Equal(4, Made(_asked[^1]).Picture!.Width.Meters, 1e-9);
        await form.InvokeAsync(() => form.FindAll("button").Single(button => button.TextContent.StartsWith("Take it out", StringComparison.Ordinal)).Click());
        Assert.Null(Made(_asked[^1]).Picture);
        directory.Delete(recursive: true);
    }

    private static IElement FormOf<T>(IRenderedComponent<T> form, string field)
        where T : Microsoft.AspNetCore.Components.IComponent => form.Find(field).Closest("form")!;

    private IRenderedComponent<PieceForm> Form(string piece) => Render<PieceForm>(with =>
        with.Add(each => each.Piece, Attic.Reading.Layout!.Track.First(each => each.Id.Name == piece)).Add(each => each.Asked, _asked.Add));

    private static Task Change(IRenderedComponent<PieceForm> form, string field, string value) => form.InvokeAsync(() => form.Find(field).Change(value));

    private async Task<TrackEdit> Submit(IRenderedComponent<PieceForm> form, string field)
    {
        await form.InvokeAsync(() => FormOf(form, field).Submit());
        return _asked[^1];
    }

    private static Layout Made(TrackEdit edit)
    {
        TrackOutcome outcome = edit.Make(Attic, ImmutableDictionary<string, string>.Empty);
        return Assert.IsType<TrackOutcome.Done>(outcome).Document.Reading.Layout!;
    }

    private static Piece.Section Section(Layout layout, string name) => layout.Track.OfType<Piece.Section>().Single(section => section.Id.Name == name);
}
